using System.Diagnostics;
using System.Text.Json;
using Xunit;

namespace Archive.Cli.Tests;

public sealed class CompareTests : IDisposable
{
    private readonly Asfound _archive = new();

    public CompareTests()
    {
        Git("init", "-q", "-b", "main");
        _archive.Write(
            "content/cables/c.yaml",
            "- {id: C-1, kind: coax-75, label: A1, ends: [{at: R1-01}, {at: R1-02}], length: 18.3 m}\n- {id: C-2, kind: coax-75, ends: [{at: R1-01}]}\n- {id: C-3, kind: coax-75}\n");
        Commit("A. First", "2026-05-12", "As found");
        Git("tag", "v1");
    }

    public void Dispose() => _archive.Dispose();

    [Fact]
    public async Task What_differs_is_told_fact_by_fact_with_who_and_when()
    {
        // Other file, other order, other style: nothing of this is a change.
        File.Delete(_archive["content/cables/c.yaml"]);
        _archive.Write(
            "content/cables/all/one.yaml",
            "- id: C-2\n  kind: coax-75\n  ends:\n    - at: R1-01\n- {kind: coax-75, id: C-1, label: \"A1\",\n   ends: [{at: R1-01}, {at: R1-02}], length: 18.3 m}\n- {id: C-3, kind: coax-75}\n");
        Commit("B. Second", "2026-05-13", "Tidied");
        Assert.Equal((0, "", "From v1 to HEAD: none added, none changed, none withdrawn, none gone.\n"), await Compare("v1", "HEAD"));

        _archive.Write(
            "content/cables/all/one.yaml",
            "- id: C-2\n  kind: coax-75\n  ends:\n    - at: R1-01\n    - at: R1-02\n- {kind: coax-75, id: C-1, label: \"A1\",\n   ends: [{at: R1-01}, {at: R1-02}], length: 18.6 m}\n- {id: C-3, kind: coax-75, withdrawn: counted twice}\n");
        Commit("C. Third", "2026-05-14", "Measured again");
        _archive.Write(
            "content/frames/r1.yaml",
            "- {id: R1-01, name: Receiver one, weight: 310 kg}\n- {id: R1-2, name: Receiver two, was: [R1-02]}\n");
        var (code, told, closing) = await Compare("v1");
        Assert.Equal((0, $"From v1 to {_archive["content"]}: none added, 3 changed, 1 withdrawn, none gone.\n"), (code, closing));
        var third = Git("rev-parse", "HEAD")[..9];
        Assert.Equal(
            $"""
            frame R1-2: was R1-02
              was: R1-02
                not committed yet

            cable C-1: changed
              length: 18.3 m -> 18.6 m
                C. Third, 2026-05-14, {third}: Measured again

            cable C-2: changed
              ends.2.at: R1-02
                C. Third, 2026-05-14, {third}: Measured again

            cable C-3: withdrawn: counted twice
              withdrawn: counted twice
                C. Third, 2026-05-14, {third}: Measured again


            """.ReplaceLineEndings("\n"),
            told);
    }

    [Fact]
    public async Task Units_pieces_and_boxes_that_changed_are_told_fact_by_fact()
    {
        _archive.Write("content/units/u.csv", "id,at,serial,straps\nU-1,R1-01,17,S1=0110\nU-2,R1-01,20,\n");
        _archive.Write("content/boxes/b.yaml", "- {id: BOX-1, limit: 25 kg}\n");
        Commit("B. Second", "2026-05-13", "Units");
        _archive.Write("content/units/u.csv", "id,at,serial,straps\nU-1,R1-01,18,S1=0111\nU-2,R1-01,20,\nU-3,R1-02,21,\n");
        _archive.Write("content/boxes/b.yaml", "- {id: BOX-1, limit: 20 kg}\n");
        _archive.Write("content/pieces/p.yaml", "- {id: P-1, of: R1-01}\n");
        Commit("C. Third", "2026-05-14", "Swapped");
        var (_, told, closing) = await Compare("HEAD~1", "HEAD");
        Assert.Contains("unit U-1: changed\n  serial: 17 -> 18\n", told, StringComparison.Ordinal);
        Assert.Contains("0111", told, StringComparison.Ordinal);
        Assert.Contains("unit U-3: added\n", told, StringComparison.Ordinal);
        Assert.Contains("piece P-1: added\n", told, StringComparison.Ordinal);
        Assert.Contains("box BOX-1: changed\n  limit: 25 kg -> 20 kg\n", told, StringComparison.Ordinal);
        Assert.DoesNotContain("U-2", told, StringComparison.Ordinal);
        Assert.Contains("2 added, 2 changed", closing, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_gone_is_told_with_who_took_it_away()
    {
        _archive.Write(
            "content/cables/c.yaml",
            "- {id: C-1, kind: coax-75, label: A1, ends: [{at: R1-01}, {at: R1-02}], length: 18.3 m}\n- {id: C-2, kind: coax-75, ends: [{at: R1-01}]}\n");
        Commit("B. Second", "2026-05-13", "Lost in a merge");
        _archive.Write("content/kinds/kinds.yaml", "- {id: coax-75, name: 75 ohm coaxial, family: coax, bend: 10}\n");
        Commit("C. Third", "2026-05-14", "Bend");
        var (_, told, closing) = await Compare("v1", "HEAD");
        Assert.Contains("cable C-3: gone\n  kind: coax-75 -> (nothing)\n    B. Second, 2026-05-13, ", told, StringComparison.Ordinal);
        Assert.Contains("1 gone", closing, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_same_as_data_and_as_a_page()
    {
        _archive.Write(
            "content/frames/r1.yaml", "- {id: R1-01, name: 'Receiver <b>one</b>', weight: 310 kg}\n- {id: R1-02, name: Receiver two}\n");
        using var json = JsonDocument.Parse((await Compare("v1", "--format", "json")).Out);
        var change = Assert.Single(json.RootElement.GetProperty("changes").EnumerateArray());
        var fact = Assert.Single(change.GetProperty("facts").EnumerateArray());
        Assert.Equal(
            ("changed", "frame", "R1-01"),
            (change.GetProperty("change").GetString(), change.GetProperty("kind").GetString(), change.GetProperty("id").GetString()));
        Assert.Equal(("name", "Receiver one", "Receiver <b>one</b>", "frames/r1.yaml:1"), (
            fact.GetProperty("fact").GetString(),
            fact.GetProperty("before").GetString(),
            fact.GetProperty("after").GetString(),
            fact.GetProperty("after_in").GetString()));
        var page = (await Compare("v1", "--format", "page")).Out;
        Assert.Contains("<h1>Changes to this record</h1>", page, StringComparison.Ordinal);
        Assert.Contains("Receiver &lt;b&gt;one&lt;/b&gt;", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<b>one", page, StringComparison.Ordinal);
        Assert.DoesNotContain("http:", page, StringComparison.Ordinal);
        Assert.DoesNotContain("https:", page, StringComparison.Ordinal);

        // It runs nothing and loads nothing; the one style sheet is the one that its policy names.
        var style = page.Split("<style>")[1].Split("</style>")[0];
        var hash = Convert.ToBase64String(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(style)));
        Assert.Contains($"content=\"default-src 'none'; style-src 'sha256-{hash}'; ", page, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Bags_and_folders_are_compared_too()
    {
        await _archive.Run("seal", "--to", _archive["one"]);
        _archive.Write("content/frames/r3.yaml", "- {id: R1-03, name: Receiver three}\n");
        await _archive.Run("seal", "--to", _archive["two"]);
        var (_, told, closing) = await Compare(_archive["one"], _archive["two"]);
        Assert.Equal("frame R1-03: added\n  name: Receiver three\n\n", told);
        Assert.EndsWith("1 added, none changed, none withdrawn, none gone.\n", closing, StringComparison.Ordinal);
        Assert.Equal("", (await Compare(_archive["two"], _archive["content"])).Out);
    }

    [Fact]
    public async Task A_packed_bag_is_compared_where_it_lies()
    {
        await _archive.Run("seal", "--to", _archive["one"], "--zip");
        Assert.Equal("", (await Compare(_archive["one.zip"])).Out);
        _archive.Write("content/frames/r3.yaml", "- {id: R1-03, name: Receiver three}\n");
        Assert.Equal("frame R1-03: added\n  name: Receiver three\n\n", (await Compare(_archive["one.zip"])).Out);
        _archive.Write("torn.zip", "PK");
        Assert.Contains("torn.zip is not a readable ZIP file", (await Compare(_archive["torn.zip"])).Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_quantity_in_another_unit_is_no_change()
    {
        _archive.Write(
            "content/cables/c.yaml",
            "- {id: C-1, kind: coax-75, label: A1, ends: [{at: R1-01}, {at: R1-02}], length: 1830 cm}\n- {id: C-2, kind: coax-75, ends: [{at: R1-01}]}\n- {id: C-3, kind: coax-75}\n");
        Assert.Equal("", (await Compare("v1")).Out);
        Assert.Equal(0, (await _archive.Run("check", "--against", "v1")).Code);
    }

    [Fact]
    public async Task An_original_that_was_changed_is_told_also_where_no_checksum_is_recorded()
    {
        Directory.CreateDirectory(_archive["content/photos"]);
        var photo = File.ReadAllBytes(
            Path.Combine(AppContext.BaseDirectory, "../../../../Archive.Photos.Tests/samples/orientation/orientation_1.jpg"));
        File.WriteAllBytes(_archive["content/photos/a.jpg"], photo);
        _archive.Write("content/photos/a.yaml", "{id: P-1, file: a.jpg}\n");
        Commit("A. First", "2026-05-12", "A photo");
        await _archive.Run("seal", "--to", _archive["bag"]);
        Assert.Equal(
            ("", "", ""),
            ((await Compare("HEAD")).Out, (await Compare(_archive["bag"])).Out, (await Compare("HEAD", _archive["bag"])).Out));

        photo[^1] ^= 1;
        File.WriteAllBytes(_archive["content/photos/a.jpg"], photo);
        var told = (await Compare("HEAD")).Out;
        Assert.StartsWith("photo P-1: changed\n  file.bytes: ", told, StringComparison.Ordinal);
        Assert.StartsWith("photo P-1: changed\n  file.bytes: ", (await Compare(_archive["bag"])).Out, StringComparison.Ordinal);
        var check = await _archive.Run("check", "--against", "HEAD");
        Assert.Equal(1, check.Code);
        Assert.Contains("AF1401: `file.bytes` of photo P-1", check.Out, StringComparison.Ordinal);
        Commit("B. Second", "2026-05-13", "Another");
        Assert.StartsWith("photo P-1: changed\n  file.bytes: ", (await Compare("HEAD~1", "HEAD")).Out, StringComparison.Ordinal);
    }

    // As after `git clone --filter`: what the photo's content is called is known, and that is enough.
    [Fact]
    public async Task An_original_whose_content_is_missing_from_the_history_is_compared_by_its_name()
    {
        Directory.CreateDirectory(_archive["content/photos"]);
        var photo = File.ReadAllBytes(
            Path.Combine(AppContext.BaseDirectory, "../../../../Archive.Photos.Tests/samples/orientation/orientation_1.jpg"));
        File.WriteAllBytes(_archive["content/photos/a.jpg"], photo);
        _archive.Write("content/photos/a.yaml", "{id: P-1, file: a.jpg}\n");
        Commit("A. First", "2026-05-12", "A photo");
        var blob = Git("rev-parse", "HEAD:content/photos/a.jpg").Trim();
        File.Delete(_archive[$".git/objects/{blob[..2]}/{blob[2..]}"]);
        Assert.Equal((0, ""), ((await Compare("HEAD")).Code, (await Compare("HEAD")).Out));
        photo[^1] ^= 1;
        File.WriteAllBytes(_archive["content/photos/a.jpg"], photo);
        Assert.StartsWith(
            $"photo P-1: changed\n  file.bytes: {blob[..12]} -> {photo.Length} bytes, ",
            (await Compare("HEAD")).Out,
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_that_cannot_be_read_is_told_and_what_it_held_is_not_called_gone()
    {
        _archive.Write("content/frames/r1.yaml", "- {id: [\n");
        var (code, _, closing) = await Compare("v1");
        Assert.Equal(1, code);
        Assert.Contains("frames/r1.yaml:2:1 in ", closing, StringComparison.Ordinal);
        Assert.DoesNotContain("AF1402", (await _archive.Run("check", "--against", "v1")).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Of_a_long_text_the_part_that_differs_is_shown_with_who_wrote_the_newest_line()
    {
        var beginning = string.Join('\n', Enumerable.Range(1, 12).Select(i => $"Line {i} of what was told on the slip."));
        _archive.Write("content/stories/s.md", $"---\ntitle: Once\n---\n{beginning}\nIt ended well.\n");
        Commit("A. First", "2026-05-12", "A story");
        _archive.Write("content/stories/s.md", $"---\ntitle: Once\n---\n{beginning}\nIt ended badly.\n");
        Commit("B. Second", "2026-05-13", "The end, as it was");
        Assert.Equal(
            $"story s: changed\n  text: …of what was told on the slip. It ended well. -> …of what was told on the slip. It ended badly.\n    B. Second, 2026-05-13, {Git("rev-parse", "HEAD")[..9]}: The end, as it was\n\n",
            (await Compare("HEAD~1", "HEAD")).Out);
        Assert.Contains("<del>…of what", (await Compare("HEAD~1", "HEAD", "--format", "page")).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_head_of_a_story_is_compared_too()
    {
        _archive.Write("content/stories/s.md", "---\ntitle: Once\norder: 1\n---\nText.\n");
        Commit("A. First", "2026-05-12", "A story");
        _archive.Write("content/stories/s.md", "---\ntitle: Once\norder: 2\n---\nText.\n");
        Assert.Equal("story s: changed\n  order: 1 -> 2\n    not committed yet\n\n", (await Compare("HEAD")).Out);
    }

    [Fact]
    public async Task Of_a_history_of_which_the_end_was_fetched_nothing_is_guessed()
    {
        _archive.Write("content/frames/r3.yaml", "- {id: R1-03, name: Receiver three}\n");
        Commit("B. Second", "2026-05-13", "A third");
        Git("clone", "-q", "--depth", "1", "file://" + _archive[""], "shallow");
        var run = await Asfound.Typed("compare", "v1", "--content", _archive["shallow/content"]);
        Assert.Equal(2, run.Code);
        Assert.Contains("git fetch --unshallow", run.Error, StringComparison.Ordinal);
        _archive.Write("old/archive.yaml", File.ReadAllText(_archive["content/archive.yaml"]));
        Assert.DoesNotContain(
            "B. Second",
            (await Asfound.Typed("compare", _archive["old"], "HEAD", "--content", _archive["shallow/content"])).Out,
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_word_that_begins_with_an_at_sign_is_a_revision_and_no_file_of_words()
    {
        _archive.Write("words", "v1");
        Assert.Contains(
            "@words is neither a folder nor a revision",
            (await Compare("@" + _archive["words"])).Error.Replace(_archive["words"], "words"),
            StringComparison.Ordinal);
        Assert.Equal((0, ""), ((await Compare("@")).Code, (await Compare("@")).Out));

        // All but a commit: git says a name for it, which is that of no commit.
        Assert.Contains("^HEAD is neither a folder nor a revision", (await Compare("^HEAD")).Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_folder_without_an_archive_is_no_state()
    {
        Directory.CreateDirectory(_archive["empty"]);
        Assert.Contains("is not an archive: it has no archive.yaml", (await Compare(_archive["empty"])).Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_no_state_is_a_wrong_command_line()
    {
        Assert.Equal(2, (await Compare("nowhere")).Code);
        Assert.Equal(2, (await Compare("--output=x")).Code);
        Assert.Equal(2, (await Compare()).Code);
        Directory.CreateDirectory(_archive["bag"]);
        _archive.Write("bag/bagit.txt", "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n");
        Assert.Equal(2, (await Compare(_archive["bag"])).Code);
    }

    [Fact]
    public async Task A_fact_as_found_does_not_change_without_a_note()
    {
        const string Before = "- {id: C-1, kind: coax-75, label: A1, ends: [{at: R1-01}, {at: R1-02}], length: 18.3 m}\n";
        const string Others = "- {id: C-2, kind: coax-75, ends: [{at: R1-01}]}\n- {id: C-3, kind: coax-75}\n";
        Assert.Equal((0, ""), await Against(Before + Others));
        Assert.Contains(
            "AF1401: `length` of cable C-1 said `18.3 m` in v1, now says `18.6 m`, without a note",
            (await Against(Before.Replace("18.3", "18.6") + Others)).Told,
            StringComparison.Ordinal);
        Assert.Equal((0, ""), await Against(Before.Replace("18.3 m", "{is: 18.6 m, note: wrong cable}") + Others));
        Assert.Equal((0, ""), await Against(Before.Replace("18.3 m", "18.6 m, note: wrong cable") + Others));
        Assert.Equal((0, ""), await Against(Before.Replace("18.3 m", "{is: 18.3 m, from: printed}") + Others));
        Assert.Contains(
            "is no longer there", (await Against(Before.Replace(", length: 18.3 m", "") + Others)).Told, StringComparison.Ordinal);
        Assert.Contains(
            "`ends.2.at` of cable C-1",
            (await Against(Before.Replace("{at: R1-02}", "{at: R1-01/S1}") + Others)).Told,
            StringComparison.Ordinal);
        Assert.Contains(
            "AF1402: cable C-3 was in v1 and is gone",
            (await Against(Before + Others.Split('\n')[0] + "\n")).Told,
            StringComparison.Ordinal);
        Assert.Equal((0, ""), await Against(Before + Others.Replace("id: C-3,", "id: C-3, withdrawn: counted twice,")));
        // what was not known may be added
        Assert.Equal((0, ""), await Against(Before + Others.Replace("id: C-2,", "id: C-2, length: 7 m,")));

        _archive.Write("content/guarded.txt", "# ours\ncables label\n");
        Git("add", "content/guarded.txt");
        Git("-c", "user.name=B", "-c", "user.email=crew@archive.example", "commit", "-q", "-m", "Guard", "--", "content/guarded.txt");
        Git("tag", "-f", "v1");
        Assert.Equal((0, ""), await Against(Before.Replace("18.3", "18.6") + Others));
        Assert.Contains("AF1401: `label`", (await Against(Before.Replace("A1", "A7") + Others)).Told, StringComparison.Ordinal);
        _archive.Write("content/guarded.txt", "cable label\n");
        Assert.Contains("guarded.txt:1:1: error AF1403", (await Against(Before + Others)).Told, StringComparison.Ordinal);
        Assert.Equal(2, (await _archive.Run("check", "--against", "nowhere")).Code);
    }

    [Fact]
    public async Task A_table_can_say_why_a_fact_changed_and_that_a_record_is_withdrawn()
    {
        const string Help = "say why: in the column `note`, or in a column such as `length_note`";
        var silent = await AgainstTable("", "C-3,coax-75,,,,,,,");
        Assert.Contains("AF1401: `length` of cable C-1", silent.Told, StringComparison.Ordinal);
        Assert.Contains(Help, silent.Told, StringComparison.Ordinal);
        Assert.Equal((0, ""), await AgainstTable("first reading was of the wrong cable", "C-3,,,,,,,counted twice,"));
        Assert.Equal((0, ""), await AgainstTable("first reading was of the wrong cable", "C-9,coax-75,,,,,,,C-3"));

        Task<(int Code, string Told)> AgainstTable(string note, string last)
        {
            _archive.Write(
                "content/cables/table.csv",
                $"id,kind,label,a,b,length,length_note,withdrawn,was\nC-1,coax-75,A1,R1-01,R1-02,18.6 m,{note},,\nC-2,coax-75,,R1-01,,,,,\n{last}\n");
            return Against("");
        }
    }

    [Fact]
    public async Task A_change_that_loosens_the_guard_cannot_use_that_at_once()
    {
        const string Changed =
            "- {id: C-1, kind: coax-75, label: A7, ends: [{at: R1-01}, {at: R1-02}], length: 18.6 m}\n- {id: C-2, kind: coax-75, ends: [{at: R1-01}]}\n- {id: C-3, kind: coax-75}\n";
        _archive.Write("content/guarded.txt", "cables label length\n");
        Commit("B. Second", "2026-05-13", "What is guarded");
        Git("tag", "-f", "v1");

        // A shorter line, no line, and no list but the usual one, which has the label and the length too.
        foreach (var (list, warning) in new[]
        {
            ("cables label\n", "length of cables was guarded in v1 and no longer is"),
            ("frames size\n", "label, length of cables were guarded in v1 and no longer are"),
            ("", "label, length of cables were guarded in v1 and no longer are"),
            (null, null),
        })
        {
            if (list is null) File.Delete(_archive["content/guarded.txt"]);
            else _archive.Write("content/guarded.txt", list);
            var (code, told) = await Against(Changed);
            told = told.Replace(_archive["content"], "content", StringComparison.Ordinal);
            Assert.Equal(1, code);
            Assert.Contains("AF1401: `label` of cable C-1", told, StringComparison.Ordinal);
            Assert.Contains("AF1401: `length` of cable C-1", told, StringComparison.Ordinal);
            if (warning is null) Assert.DoesNotContain("AF1407", told, StringComparison.Ordinal);
            else Assert.Contains("content/guarded.txt: warning AF1407: " + warning, told, StringComparison.Ordinal);
        }
    }

    private async Task<(int Code, string Told)> Against(string cables)
    {
        _archive.Write("content/cables/c.yaml", cables);
        var run = await _archive.Run("check", "--against", "v1");
        return (run.Code, run.Out);
    }

    private async Task<(int Code, string Out, string Error)> Compare(params string[] words) =>
        await _archive.Run("compare", words) is var run ? (run.Code, run.Out, run.Error) : default;

    private void Commit(string who, string day, string says)
    {
        Git("add", "-A", "content");
        Git("-c", $"user.name={who}", "-c", "user.email=crew@archive.example", "commit", "-q", "-m", says, "--date", $"{day}T12:00:00Z");
    }

    private string Git(params string[] arguments)
    {
        using var git =
            Process.Start(new ProcessStartInfo("git", arguments) { WorkingDirectory = _archive[""], RedirectStandardOutput = true })!;
        var said = git.StandardOutput.ReadToEnd();
        git.WaitForExit();
        Assert.Equal(0, git.ExitCode);
        return said;
    }
}
