using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>References lead to a standing record of the right kind, by the id it has now.</summary>
internal static class ReferenceChecks
{
    public static IEnumerable<Diagnostic> LeadSomewhere(CheckContext context)
    {
        var told = new DiagnosticList();
        foreach (var record in context.Draft.Records)
        {
            // Of a file that is full of errors no one reads the rest, and what a wrong reference may have meant is dear to find.
            if (told.IsFull(record.Span.Path)) continue;
            foreach (var reference in Reference.From(record))
            {
                if (Judge(context, record, reference) is { } diagnostic) told.Add(diagnostic);
            }
        }

        return told.All;
    }

    /// <summary>What is wrong with a reference, or null.</summary>
    /// <param name="by">Whose reference it is; null for archive.yaml.</param>
    public static Diagnostic? Judge(CheckContext context, ArchiveRecord? by, Reference reference)
    {
        var (role, name) = reference;
        if (context.Record.ById.GetValueOrDefault(name.Value) is { } target) return JudgeTarget(by, reference, target);
        if (context.Record.Former.GetValueOrDefault(name.Value) is not { } renamed)
            return context.Losses.MayHold(name.Value, role.Kinds) ? null : Unknown(context, reference);
        return JudgeTarget(by, reference, renamed) ?? DiagnosticDescriptors.FormerReference.At(
            name.Span,
            $"`{name.Value}` is a former id: the {renamed.RecordKind.Noun()} is now `{renamed.Id}`",
            $"write `{renamed.Id}`",
            new Related(renamed.Was.First(was => was.Value == name.Value).Span, "renamed here"));
    }

    private static Diagnostic? JudgeTarget(ArchiveRecord? by, Reference reference, ArchiveRecord target)
    {
        var (role, name) = reference;
        var noun = target.RecordKind.Noun();
        if (!role.Kinds.Contains(target.RecordKind))
        {
            return DiagnosticDescriptors.WrongKindOfReference.At(
                name.Span,
                $"`{name.Value}` is {RecordPhrases.One(noun)}, but `{role.Key}` expects {RecordPhrases.One(role.Noun)}",
                role == ReferenceRole.EventEnd && target is Frame
                    ? $"name the frame alone: `{name.Value}`"
                    : $"write the id of {RecordPhrases.One(role.Noun)}",
                new Related(target.IdSpan, $"given here as {RecordPhrases.One(noun)}"));
        }

        if (role.Binds && target.Id == by?.Id)
        {
            return DiagnosticDescriptors.SelfReference.At(
                name.Span,
                $"{noun} `{target.Id}` is listed in its own `{role.Key}`",
                "write another record, or remove it",
                new Related(target.IdSpan, "the record itself"));
        }

        if (target.Withdrawn is not { } withdrawn || by is { IsWithdrawn: true }) return null;
        return (role.Binds ? DiagnosticDescriptors.WithdrawnReference : DiagnosticDescriptors.WithdrawnMention).At(
            name.Span,
            $"{noun} `{target.Id}` was withdrawn",
            "refer to its replacement, or remove the reference",
            new Related(withdrawn.Span, "withdrawn here"));
    }

    private static Diagnostic Unknown(CheckContext context, Reference reference)
    {
        var (role, name) = reference;
        return DiagnosticDescriptors.UnknownReference.At(
            name.Span, $"there is no {role.Noun} `{name.Value}`", Help(context, reference));
    }

    private static string Help(CheckContext context, Reference reference)
    {
        var (role, name) = reference;
        var nearest = context.Names.Nearest(name.Value, role.Kinds);
        if (name.Value.IndexOf('/', StringComparison.Ordinal) is > 0 and var slash && role.Kinds.Contains(RecordKind.Frame))
            return $"name the frame alone: `{name.Value[..slash]}`";
        if (role == ReferenceRole.Explains && name.Value.Contains(' ', StringComparison.Ordinal))
            return "`about` of a document lists the ids of what it explains; write a description in `note`";
        if (nearest is null && role.Key == "at" && WithSlashes(context.Record, name.Value) is { } address)
            return $"did you mean `{address}`?";
        if (nearest is null) return $"write the id of {RecordPhrases.One(role.Noun)}, or add one with the id `{name.Value}`";
        if (!role.Kinds.Contains(nearest.RecordKind))
            return $"write the id of {RecordPhrases.One(role.Noun)}; the nearest id is `{nearest.Id}`, {RecordPhrases.One(nearest.RecordKind)}";
        return string.Equals(nearest.Id, name.Value, StringComparison.OrdinalIgnoreCase)
            ? $"write `{nearest.Id}`: letter case counts in ids"
            : $"did you mean `{nearest.Id}`?";
    }

    // An address that was written with dashes.
    private static string? WithSlashes(ArchiveModel record, string written)
    {
        for (var dash = written.LastIndexOf('-'); dash > 0; dash = written.LastIndexOf('-', dash - 1))
        {
            if (record.Find<Frame>(written[..dash]) is not null)
                return $"{written[..dash]}/{written[(dash + 1)..].Replace('-', '/')}";
        }

        return null;
    }
}
