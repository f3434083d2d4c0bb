using Archive.Diagnostics;
using Archive.Records.Model;
using Archive.Records.Reading.Syntax;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Values;

/// <summary>A single value as written under a key, before it becomes a value of the model.</summary>
/// <param name="Key">The key, for sentences.</param>
/// <param name="Told">Collects the diagnostics.</param>
internal readonly record struct WrittenValue(ScalarNode Node, string Key, DiagnosticBag Told)
{
    public string Text => Node.Text;

    /// <summary>What it says, fit for a sentence.</summary>
    public string Short => Node.Short;

    /// <summary>Reports an error in a part of the value.</summary>
    /// <param name="error">What is wrong with it.</param>
    /// <returns>False, so that a reader can return it.</returns>
    public bool Refuse(TermError error)
    {
        var part = new TypedText(new Stated<string>(Text, Node.Span)).Of(error.Start, error.Length);
        Told.Add(error.Kind.At(part, Quotation.Line(error.Message), error.Help));
        return false;
    }

    /// <summary>Reports an error in the whole value.</summary>
    /// <param name="help">What to do.</param>
    /// <returns>False, so that a reader can return it.</returns>
    public bool Refuse(DiagnosticDescriptor kind, string message, string help)
    {
        Told.Add(kind.At(Node.Span, message, help));
        return false;
    }
}

/// <summary>Reads a single value.</summary>
/// <typeparam name="T">What it becomes.</typeparam>
/// <param name="written">The value as written; never empty.</param>
/// <param name="value">What it means.</param>
/// <returns>False where it means nothing; that was reported.</returns>
internal delegate bool ReadValue<T>(in WrittenValue written, out T value);
