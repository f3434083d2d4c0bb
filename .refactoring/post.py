# string fixes after the tool, on ROOT; every fix says when its text is missing
import os,sys,re,subprocess,glob
root=sys.argv[1]; os.chdir(root)
def fix(f,*prs):
    if not os.path.exists(f): print('NO FILE',f); return
    s=open(f).read()
    for a,b in prs:
        if a not in s: print('MISSING in',f,':',a[:80]); continue
        s=s.replace(a,b)
    open(f,'w').write(s)
A='tests/Archive.Architecture.Tests/'
fix(A+'DescriptorTests.cs',('src/Archive.Diagnostics/Faults"','src/Archive.Diagnostics/Descriptors"'),('.ToDictionary(file => Path.GetFileName(file)','.Where(file => file.Contains("DiagnosticDescriptors.", StringComparison.Ordinal) && !file.EndsWith("/DiagnosticDescriptors.cs", StringComparison.Ordinal))\n            .ToDictionary(file => Path.GetFileName(file)'),
 ('Directory.GetFiles(Path.Combine(Repository.Root, "src/Archive.Diagnostics/Pages"))','Directory.GetFiles(Path.Combine(Repository.Root, "src/Archive.Diagnostics/Pages"), "*.md")'))
fix('tests/Archive.Site.Tests/Templates/TemplateTests.cs',('type.Namespace == "Archive.Site" && ',''))
fix('tests/Archive.Search.Tests/ScriptSide.cs',('"Archive.Site.Tests", "Search"','"Archive.Search.Tests"'))
for f,old in [('tests/Archive.Preservation.Tests/SealTests.cs',None)]: pass
subprocess.run("rm -f .tmp",shell=True)
I='tests/Archive.Intake.Tests/IntakeGroupingTests.cs'
fix(I,('private static readonly Sketch Hall = Sketch.Of(','private static readonly ArchiveModel Hall = WrittenArchive.Model('),('Hall.Record','Hall'),('using Archive.Site.Tests.Pages;\n','using Archive.Records.Tests;\n'),('using Archive.Photos.Images;\n','using Archive.Photos.Images;\nusing Archive.Records.Model;\n'))
P='tests/Archive.Markup.Tests/Prose/ProseTests.cs'
fix(P,('private static readonly Sketch Record = Sketch.Of(','private static readonly ArchiveModel Record = WrittenArchive.Model('),('Record.Record','Record'),('using Archive.Site.Tests.Pages;\n','using Archive.Records.Tests;\n'),('Sketch.Of(("stories','WrittenArchive.Model(("stories'),(')).Record.Stories','))' + '.Stories'))
O='tests/Archive.Site.Tests/Permanence/OutsideReadersTests.cs'
fix(O,('ScriptSide.Repository','Sketch.Repository'),('using Archive.Search.Tests;\n',''))
fix('src/Archive.Cli/Archive.Cli.csproj',('    <ProjectReference Include="../Archive.Preservation/Archive.Preservation.csproj" />\n','    <ProjectReference Include="../Archive.Comparison/Archive.Comparison.csproj" />\n    <ProjectReference Include="../Archive.Intake/Archive.Intake.csproj" />\n    <ProjectReference Include="../Archive.Preservation/Archive.Preservation.csproj" />\n'))
fix('Directory.Build.props',('    <PathMap>','    <!-- A comment says what a signature cannot; where there is nothing to add there is none. -->\n    <NoWarn>$(NoWarn);CS1591;CS1573</NoWarn>\n    <PathMap>'))
fix('.editorconfig',('dotnet_diagnostic.IDE0005.severity = warning','dotnet_diagnostic.IDE0005.severity = warning\n# Sort keys are compared by OrderBy alone.\ndotnet_diagnostic.CA1036.severity = none\n# Namespace and folder are one.\ndotnet_style_namespace_match_folder = true\ndotnet_diagnostic.IDE0130.severity = warning'))
open('tests/Archive.Records.Tests/WrittenArchive.cs','w').write('''using Archive.Records.Model;
using Archive.Records.Reading;

namespace Archive.Records.Tests;

/// <summary>A small archive written down in a test.</summary>
internal static class WrittenArchive
{
    public static ArchiveModel Model(params (string Path, string Text)[] files)
    {
        var folder = files.Aggregate(
            InMemoryFolder.Empty.With("archive.yaml", "title: A sketch\\nbase: https://archive.example/sketch/\\n"), (folder, file) => folder.With(file.Path, file.Text));
        var read = RecordReader.Read(folder);
        return ArchiveModel.From(read.Statement!, read.Records);
    }
}
''')

fix('tests/Archive.Cli.Tests/Archive.Cli.Tests.csproj',('../Archive.Preservation.Tests/HostileRepository.cs','../Archive.Git.Tests/HostileRepository.cs'))
fix('tests/Archive.Git.Tests/HostileRepository.cs',('src/Archive.Preservation/Git/','src/Archive.Git/'))
