using System.Collections.Immutable;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace Archive.Records.Writing;

/// <summary>Writes one YAML document of a record: whatever a text contains, it reads back the same.</summary>
public sealed class YamlWriter
{
    private readonly Emitter _yaml;

    private YamlWriter(TextWriter writer) =>
        _yaml = new Emitter(writer, new EmitterSettings().WithBestWidth(int.MaxValue).WithBestIndent(2).WithNewLine("\n"));

    /// <summary>Writes a document that is one mapping.</summary>
    /// <param name="write">Writes the keys and values.</param>
    public static void Write(TextWriter writer, Action<YamlWriter> write)
    {
        var yaml = new YamlWriter(writer);
        yaml._yaml.Emit(new StreamStart());
        yaml._yaml.Emit(new DocumentStart(null, null, isImplicit: true));
        yaml.Mapping(YamlLayout.Block, () => write(yaml));
        yaml._yaml.Emit(new DocumentEnd(isImplicit: true));
        yaml._yaml.Emit(new StreamEnd());
    }

    public void Mapping(YamlLayout layout, Action write)
    {
        _yaml.Emit(new MappingStart(
            AnchorName.Empty, TagName.Empty, isImplicit: true, layout == YamlLayout.Block ? MappingStyle.Block : MappingStyle.Flow));
        write();
        _yaml.Emit(new MappingEnd());
    }

    public void Sequence<T>(string key, ImmutableArray<T> items, Action<T> write, YamlLayout layout = YamlLayout.Flow)
    {
        Scalar(key);
        Sequence(items, write, items.IsEmpty ? YamlLayout.Flow : layout);
    }

    public void Sequence<T>(ImmutableArray<T> items, Action<T> write, YamlLayout layout = YamlLayout.Flow)
    {
        _yaml.Emit(new SequenceStart(
            AnchorName.Empty, TagName.Empty, isImplicit: true, layout == YamlLayout.Block ? SequenceStyle.Block : SequenceStyle.Flow));
        foreach (var item in items) write(item);
        _yaml.Emit(new SequenceEnd());
    }

    public void Key(string key, string value)
    {
        Scalar(key);
        Scalar(value);
    }

    /// <summary>A scalar in the simplest form that reads back as this text.</summary>
    public void Scalar(string text) => Emit(text, ScalarStyle.Any);

    /// <summary>A scalar in double quotes: other programs too take it as text, and never as a number, a date or null.</summary>
    public void Quoted(string text) => Emit(text, ScalarStyle.DoubleQuoted);

    /// <summary>A scalar of several lines, as they are.</summary>
    public void Lines(string text) => Emit(text, ScalarStyle.Literal);

    /// <summary>A comment behind what was written last.</summary>
    /// <param name="text">One line. A character that could end the line must not be in it.</param>
    public void Comment(string text) => _yaml.Emit(new Comment(text, isInline: true));

    private void Emit(string text, ScalarStyle style) =>
        _yaml.Emit(new Scalar(AnchorName.Empty, TagName.Empty, text, style, isPlainImplicit: true, isQuotedImplicit: true));
}

/// <summary>Whether a mapping or sequence takes a line for each entry, or one line.</summary>
public enum YamlLayout
{
    Block,
    Flow,
}
