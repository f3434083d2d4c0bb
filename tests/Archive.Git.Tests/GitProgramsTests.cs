using System.Text.RegularExpressions;
using Archive.Comparison;
using Xunit;

namespace Archive.Git.Tests;

/// <summary>
/// Each line of programs-git-can-run.tsv but variables (those are tried on whole processes, in the tests of the command line).
/// </summary>
public sealed partial class GitProgramsTests(GitProgramsTests.Made made) : IClassFixture<GitProgramsTests.Made>
{
    // What makes plain git run the program of a line, so that the trial is known to be one. A line that is not here cannot be tried with
    // plain git on this machine.
    private static readonly Dictionary<string, string> Plain = new(StringComparer.Ordinal)
    {
        ["alias.trial"] = "git trial",
        ["browser.trial.cmd"] = "git web--browse -t trial https://example.org/",
        ["browser.firefox.path"] = "git web--browse -t firefox https://example.org/",
        ["core.alternateRefsCommand"] =
            "git clone -q --bare . ../alt.git; echo \"$PWD/../alt.git/objects\" > .git/objects/info/alternates; git -C ../alt.git push \"$PWD\" HEAD:refs/heads/other",
        ["core.askPass"] = "printf 'protocol=https\\nhost=example.org\\n\\n' | git credential fill",
        ["core.editor"] = "git commit --allow-empty",
        ["core.fsmonitor"] = "git status",
        ["core.gitProxy"] = "git ls-remote git://example.org/x",
        ["core.hooksPath"] = "git commit --allow-empty -m x",
        ["core.pager"] = "script -qec 'git log' /dev/null",
        ["core.sshCommand"] = "git ls-remote ssh://example.org/x",
        ["credential.helper"] = "printf 'protocol=https\\nhost=example.org\\n\\n' | git credential fill",
        ["credential.https://example.org.helper"] = "printf 'protocol=https\\nhost=example.org\\n\\n' | git credential fill",
        ["diff.external"] = "git diff HEAD~1",
        ["diff.trial.command"] = "git diff",
        ["diff.trial.textconv"] = "git diff",
        ["difftool.trial.cmd"] = "git difftool -y -t trial",
        ["difftool.vimdiff.path"] = "git difftool -y -t vimdiff",
        ["extensions.partialClone"] = "git cat-file -p broken:content/frames/lost.yaml",
        ["filter.trial.clean"] = "git add -A",
        ["filter.trial.process"] = "git add -A",
        ["filter.trial.smudge"] = "git checkout -f v2",
        ["gpg.program"] = "git commit -S --allow-empty -m x",
        ["gpg.openpgp.program"] = "git commit -S --allow-empty -m x",
        ["gpg.x509.program"] = "git -c gpg.format=x509 commit -S --allow-empty -m x",
        ["gpg.ssh.program"] = "git -c gpg.format=ssh -c user.signingKey=/dev/null commit -S --allow-empty -m x",
        ["gpg.ssh.defaultKeyCommand"] = "git -c gpg.format=ssh commit -S --allow-empty -m x",
        ["help.browser"] = "git -c browser.trial.cmd=$RUN -c help.htmlPath=https://example.org help --web log",
        ["imap.tunnel"] =
            "printf 'From a Mon Sep 17 00:00:00 2001\\nFrom: a\\nDate: x\\nSubject: s\\n\\nb\\n' | git -c imap.folder=x imap-send",
        ["include.path"] = "git status",
        ["includeIf.gitdir:/**.path"] = "git status",
        ["init.templateDir"] = "git -c init.templateDir=$FOLDER init -q ../new && git -C ../new commit --allow-empty -m x",
        ["interactive.diffFilter"] = "printf 'q\\n' | TERM=xterm script -qec 'git add -p' /dev/null",
        ["log.showSignature"] = "git -c gpg.program=$RUN log",
        ["man.trial.cmd"] = "git -c man.viewer=trial help -m log",
        ["man.man.path"] = "git -c man.viewer=man help -m log",
        ["merge.trial.driver"] =
            "git checkout -qf -b side v2; printf x >> content/cables/c.yaml; git commit -qam x; git checkout -q main; printf y >> content/cables/c.yaml; git commit -qam y; git merge side",
        ["mergetool.trial.cmd"] =
            "git checkout -qf -b side v2; printf x >> content/cables/c.yaml; git commit -qam x; git checkout -q main; printf y >> content/cables/c.yaml; git commit -qam y; git merge side; git mergetool -y -t trial",
        ["mergetool.vimdiff.path"] =
            "git checkout -qf -b side v2; printf x >> content/cables/c.yaml; git commit -qam x; git checkout -q main; printf y >> content/cables/c.yaml; git commit -qam y; git merge side; git mergetool -y -t vimdiff",
        ["pager.log"] = "script -qec 'git log' /dev/null",
        ["protocol.ext.allow"] = "git ls-remote \"ext::$RUN\"",
        ["remote.trial.promisor"] = "git cat-file -p broken:content/frames/lost.yaml",
        ["remote.trial.pushurl"] = "git push trial main",
        ["remote.trial.receivepack"] =
            "git push \"$PWD/../elsewhere/.git\" main; git config remote.trial.url \"$PWD/../elsewhere/.git\"; git push trial main:side",
        ["remote.trial.uploadpack"] = "git config remote.trial.url \"$PWD/../elsewhere/.git\"; git ls-remote trial",
        ["remote.trial.url"] = "git cat-file -p broken:content/frames/lost.yaml",
        ["remote.trial.vcs"] = "PATH=\"$FOLDER:$PATH\" git ls-remote trial",
        ["sequence.editor"] = "git checkout -qf main; git rebase -i HEAD~1",
        ["status.submoduleSummary"] = "git -C content/sub config core.fsmonitor $RUN; git status",
        ["diff.submodule"] = "git -C content/sub config core.fsmonitor $RUN; git diff",
        ["submodule.recurse"] =
            "git -C content/sub config core.hooksPath $FOLDER; git checkout -qf v2; git -C content/sub checkout -q --orphan other; git checkout -f main",
        ["submodule.sub.update"] =
            "git config submodule.content/sub.update \"!$RUN\"; git config submodule.content/sub.url x; git submodule update --force",
        ["tar.trial.command"] = "git archive --format=trial HEAD",
        ["trailer.trial.cmd"] = "echo m | git interpret-trailers --trailer trial=x",
        ["trailer.trial.command"] = "echo m | git interpret-trailers --trailer trial=x",
        ["url.ext::RUN.insteadOf"] = "git -c protocol.ext.allow=always ls-remote https://example.org/",
        ["url.ext::RUN.pushInsteadOf"] = "git -c protocol.ext.allow=always push https://example.org/ main",
        ["web.browser"] = "git -c browser.trial.cmd=$RUN web--browse https://example.org/",
        ["filter"] = "git add -A",
        ["diff"] = "git diff",
        [".git/config.worktree"] = "git status",
        [".git/hooks/fsmonitor-watchman"] = "git status",
        [".git/hooks/post-index-change"] = "touch content/cables/c.yaml; git status",
        [".git/hooks/reference-transaction"] = "git tag x",
        [".git/info/attributes"] = "rm .gitattributes; git add -A",
        ["git"] = "PATH=.:$PATH git",
        ["content/HEAD"] = "cd content && git status",
    };

    public static TheoryData<string> Lines => [.. GitProgram.All.Where(line => line.Kind != "variable").Select(line => line.Name)];

    [Theory]
    [MemberData(nameof(Lines))]
    public void A_repository_makes_git_run_nothing_and_changes_no_answer(string name)
    {
        using var archive = made.Archive.Copy();
        var line = GitProgram.All.Single(line => line.Name == name);
        archive.Take(line);
        archive.Unmark();
        Assert.Equal(made.Answers, Ask(archive));
        Assert.False(archive.IsMarked, $"{name} ran a program");

        if (!Plain.TryGetValue(name, out var command)) return;
        archive.Shell(command);
        Assert.True(archive.IsMarked, $"{name} is no trial: plain git does not run its program by {command}");
    }

    // The repository's changed file is as long as it was, and was changed in the moment in which the index was written.
    [Fact]
    public void A_change_of_the_moment_of_the_last_commit_is_seen() =>
        Assert.Contains(", with changes that were not committed", made.Answers, StringComparison.Ordinal);

    [Fact]
    public void The_list_has_each_setting_of_git_whose_name_speaks_of_a_program()
    {
        var known = GitProgram.All.Where(line => line.Kind == "setting").Select(line => new Regex(
            "^" + Regex.Escape(line.Name).Replace("trial", "[^.]+", StringComparison.Ordinal) + "$", RegexOptions.IgnoreCase)).ToList();
        var names = made.Archive
            .Shell("git help --config")
            .Split('\n')
            .Where(name => Speaking().IsMatch(name) && !name.StartsWith("advice.", StringComparison.Ordinal))
            .Select(name => Placeholder().Replace(name, "x"))
            .Except(Harmless);
        Assert.NotEmpty(names);
        Assert.DoesNotContain(names, name => !known.Any(each => each.IsMatch(name)) && !GitProgram.All.Any(line => Alike(line.Name, name)));
    }

    // Names that speak of programs and name none.
    private static readonly string[] Harmless =
    [
        "color.pager", "column.clean", "core.fsmonitorHookVersion", "core.quotePath", "credential.useHttpPath", "diff.x.cachetextconv",
            "fsck.gitmodulesPath", "fsck.gitmodulesUpdate", "gitcvs.dbDriver", "help.htmlPath", "http.proxy",
            "http.sslCAPath",
            "instaweb.browser", "instaweb.modulePath", "receive.fsck.gitmodulesPath", "receive.fsck.gitmodulesUpdate",
            "receive.shallowUpdate", "remote.x.proxy", "remote.x.skipDefaultUpdate",
            "rerere.autoUpdate", "sendemail.smtpsslcertpath",
        ];

    // A wildcard in git's own name (<tool>) stands for another word than ours.
    private static bool Alike(string ours, string gits) =>
        Regex.IsMatch(ours, "^" + Regex.Escape(gits).Replace("x", ".+", StringComparison.Ordinal) + "$", RegexOptions.IgnoreCase);

    [GeneratedRegex(
        @"cmd$|command$|program$|driver$|helper$|editor$|pager|hook|proxy$|tunnel$|httpd$|textconv$|clean$|smudge$|process$|askPass$|browser$|path$|receivepack$|uploadpack$|vcs$|update$|external$|remote.*url$|insteadOf$|templateDir$|fsmonitor$|diffFilter$|^alias",
        RegexOptions.IgnoreCase)]
    private static partial Regex Speaking();

    [GeneratedRegex("<[^>]+>|\\*")]
    private static partial Regex Placeholder();

    /// <summary>All that the product asks git, as one text.</summary>
    private static string Ask(HostileRepository archive)
    {
        using var answers = new StringWriter();
        using (var before = ArchiveVersion.Open("v2", archive.Content, TestContext.Current.CancellationToken, out _)!)
        using (var now = ArchiveVersion.Lying("now", archive.Content, TestContext.Current.CancellationToken))
        {
            ChangeReport.WriteText(answers, ArchiveComparison.Compare(before, now, TestContext.Current.CancellationToken));
        }

        using (var before = ArchiveVersion.Open("v2", archive.Content, TestContext.Current.CancellationToken, out _)!)
        using (var after = ArchiveVersion.Open("HEAD", archive.Content, TestContext.Current.CancellationToken, out _)!)
        {
            ChangeReport.WriteText(answers, ArchiveComparison.Compare(before, after, TestContext.Current.CancellationToken));
        }

        using var broken = ArchiveVersion.Open("broken", archive.Content, TestContext.Current.CancellationToken, out _)!;
        answers.Write(broken.Unreadable);
        var state = GitState.Read(archive.Content, TestContext.Current.CancellationToken);
        answers.Write($"\n{state.Commit} {state.Says}");
        return answers.ToString();
    }

    /// <summary>The archive that each trial copies, and what git answers of it while nothing is wrong.</summary>
    public sealed class Made : IDisposable
    {
        public Made() => Answers = Ask(Archive);

        internal HostileRepository Archive { get; } = new();

        internal string Answers { get; }

        public void Dispose() => Archive.Dispose();
    }
}
