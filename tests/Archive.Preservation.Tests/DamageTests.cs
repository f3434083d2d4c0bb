using Archive.Diagnostics;
using Xunit;

namespace Archive.Preservation.Tests;

/// <summary>A sealed bag is damaged at random places, one damage at a time: each is found, and named by its file.</summary>
public sealed class DamageTests : IDisposable
{
    private const int Times = 60;
    private readonly SealedStation _station = new();
    private readonly int _seed = Environment.TickCount;
    private readonly Random _random;
    private readonly string[] _files;

    public DamageTests()
    {
        _random = new Random(_seed);
        _station.Seal();
        _files = _station.Files();
    }

    public void Dispose() => _station.Dispose();

    [Fact]
    public void A_flipped_bit_is_found()
    {
        for (var i = 0; i < Times; i++)
        {
            // Every third time in a list, which is what is rarest and tells most.
            var candidates = _files.Where(file => (i % 3 == 0) == !file.StartsWith("data/", StringComparison.Ordinal)
                && new FileInfo(Full(file)).Length > 0).ToArray();
            var file = candidates[_random.Next(candidates.Length)];
            var bytes = File.ReadAllBytes(Full(file));
            var at = _random.Next(bytes.Length * 8);
            bytes[at / 8] ^= (byte)(1 << (at % 8));
            File.WriteAllBytes(Full(file), bytes);
            AssertFound($"bit {at} of {file} flipped", file);
            bytes[at / 8] ^= (byte)(1 << (at % 8));
            File.WriteAllBytes(Full(file), bytes);
        }

        Assert.True(_station.Audit().IsValid);
    }

    [Fact]
    public void A_lost_file_is_found()
    {
        for (var i = 0; i < Times; i++)
        {
            // A tag manifest may be missing without a trace: it is optional, and nothing lists it.
            var file = Any(file => !file.StartsWith("tagmanifest", StringComparison.Ordinal));
            var bytes = File.ReadAllBytes(Full(file));
            File.Delete(Full(file));
            AssertFound($"{file} deleted", file);
            File.WriteAllBytes(Full(file), bytes);
        }
    }

    [Fact]
    public void An_added_file_is_found()
    {
        for (var i = 0; i < Times; i++)
        {
            var file = Path.Combine(Path.GetDirectoryName(Any(file => file.StartsWith("data/", StringComparison.Ordinal)))!, $"new{i}");
            File.WriteAllBytes(Full(file), new byte[_random.Next(3)]);
            AssertFound($"{file} added", file);
            File.Delete(Full(file));
        }
    }

    [Fact]
    public void A_renamed_file_is_found_by_both_its_names()
    {
        for (var i = 0; i < Times; i++)
        {
            var file = Any(file => file.StartsWith("data/", StringComparison.Ordinal));
            File.Move(Full(file), Full(file + "~"));
            AssertFound($"{file} renamed", file);
            AssertFound($"{file} renamed", file + "~");
            File.Move(Full(file + "~"), Full(file));
        }
    }

    private string Full(string file) => _station["vault/small/" + file];

    private string Any(Func<string, bool> which)
    {
        var files = _files.Where(which).ToArray();
        return files[_random.Next(files.Length)];
    }

    private void AssertFound(string damage, string file)
    {
        var found = _station.Audit().Diagnostics;
        Assert.True(
            found.Any(diagnostic => diagnostic.Span.Path == file || diagnostic.Message.Contains(file, StringComparison.Ordinal)),
            $"seed {_seed}: {damage}, and told was: {string.Join("; ", found.Where(each => each.Severity != Severity.Note))}");
    }
}
