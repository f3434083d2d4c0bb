using System.CommandLine;
using Archive.Cli.Options;

namespace Archive.Cli.Reviewing;

/// <summary>Options of every command that proposes facts: how they are shown, and how they are decided.</summary>
internal static class ReviewOptions
{
    internal static readonly Option<string> Accept = new("--accept")
    {
        HelpName = "WHAT,ID",
        Description = "write these proposals: new, all (but contradictions), or ids of records or proposals",
    };

    internal static readonly Option<string> Reject = new("--reject")
    {
        HelpName = "ID,ID",
        Description = "do not propose these again; rejected.yaml remembers them",
    };

    internal static readonly Option<string> Review = new("--review")
    {
        HelpName = "FILE",
        Description = "a text file to decide in, a line for each proposal: it is made the first time, and obeyed the next",
    };

    internal static readonly Option<bool> Page = new("--page")
    {
        Description = "decide in a page that is served on this machine, as by asfound preview",
    };

    internal static readonly Option<string> Format = new Option<string>("--format")
    {
        HelpName = "FORMAT",
        Description = """
            how proposals are written (text):
              text  for people
              json  for programs; the fields are stable
            """,
    }.AcceptOnlyFromAmong(ProposalReview.Formats);

    /// <summary>Whether anything is decided, or is about to be.</summary>
    internal static bool AreUsed(Arguments arguments) =>
        arguments.Get(Page) || (arguments.Get(Accept) ?? arguments.Get(Reject) ?? arguments.Get(Review)) is not null;
}
