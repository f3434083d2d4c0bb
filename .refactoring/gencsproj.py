import os,sys
root=sys.argv[1]
def w(path,s):
    p=os.path.join(root,path); os.makedirs(os.path.dirname(p),exist_ok=True); open(p,'w').write(s)
def ref(n,base='..'): return f'    <ProjectReference Include="{base}/Archive.{n}/Archive.{n}.csproj" />\n'
SRC={
# name: (projects, packages, ivt, extra before, extra props)
'Storage':(['Diagnostics'],[],['Publishing.Tests','Preservation.Tests'],'','    <!-- Asked for by generated P/Invoke; no unsafe code is written by hand. -->\n    <AllowUnsafeBlocks>true</AllowUnsafeBlocks>\n'),
'Halls':(['Records'],['NetTopologySuite'],['Halls.Tests','Drawings.Tests'],'',''),
'Markup':(['Records','Storage'],['Markdig','Scriban.Signed'],['Markup.Tests','Site.Tests'],'',''),
'Data':(['Records','Storage','Wiring'],[],['Site.Tests'],'',''),
'Drawings':(['Halls','Markup','Records','Wiring'],['QRCoder'],['Drawings.Tests','LabelSheets.Tests'],'',''),
'LabelSheets':(['Drawings','Markup','Records','Storage'],[],['LabelSheets.Tests'],'',''),
'Plans':(['Data','Halls','Photos','Records','Wiring'],[],['Site.Tests'],'',''),
'Search':(['Markup','Records','Storage'],['Lucene.Net','Lucene.Net.Analysis.Common','SharpZipLib'],['Search.Tests'],'',''),
'Site':(['Data','Drawings','Halls','LabelSheets','Markup','Photos','Plans','Records','Storage','Wiring'],[],['Site.Tests'],'',''),
'Publishing':(['Search','Site','Storage'],[],['Publishing.Tests'],'',''),
'Intake':(['Photos','Publishing','Records'],[],['Intake.Tests'],'',''),
'Git':(['Records','Storage'],[],['Git.Tests'],'',''),
}
for n,(pr,pk,ivt,extra,props) in SRC.items():
    s='<Project Sdk="Microsoft.NET.Sdk">\n'
    if props: s+='  <PropertyGroup>\n'+props+'  </PropertyGroup>\n'
    s+='  <ItemGroup>\n'+''.join(f'    <InternalsVisibleTo Include="Archive.{i}" />\n' for i in ivt)+''.join(ref(p) for p in pr)+''.join(f'    <PackageReference Include="{k}" />\n' for k in pk)+'  </ItemGroup>\n</Project>\n'
    w(f'src/Archive.{n}/Archive.{n}.csproj',s)
w('src/Archive.Preservation/Archive.Preservation.csproj','''<Project Sdk="Microsoft.NET.Sdk">
  <PropertyGroup>
    <!-- Asked for by generated P/Invoke; no unsafe code is written by hand. -->
    <AllowUnsafeBlocks>true</AllowUnsafeBlocks>
  </PropertyGroup>
  <ItemGroup>
    <EmbeddedResource Include="Bags/canonical-letters.txt" LogicalName="canonical-letters" />
    <EmbeddedResource Include="Format/*" LogicalName="%(Filename)%(Extension)" />
    <InternalsVisibleTo Include="Archive.Preservation.Tests" />
    <ProjectReference Include="../Archive.Git/Archive.Git.csproj" />
    <ProjectReference Include="../Archive.Publishing/Archive.Publishing.csproj" />
  </ItemGroup>
</Project>
''')
w('src/Archive.Comparison/Archive.Comparison.csproj','''<Project Sdk="Microsoft.NET.Sdk">
  <ItemGroup>
    <EmbeddedResource Include="changes.css" LogicalName="changes.css" />
    <ProjectReference Include="../Archive.Git/Archive.Git.csproj" />
    <ProjectReference Include="../Archive.Preservation/Archive.Preservation.csproj" />
  </ItemGroup>
</Project>
''')
TESTS={
'Drawings':(['Drawings'],['CsCheck','AngleSharp','ZXing.Net'],[('../Archive.Halls.Tests/Sketch.cs','Sketch.cs')]),
'LabelSheets':(['LabelSheets'],['CsCheck','ZXing.Net'],[]),
'Markup':(['Markup'],['CsCheck'],[('../Archive.Records.Tests/WrittenArchive.cs','WrittenArchive.cs')]),
'Search':(['Search'],['CsCheck'],[('../Archive.Publishing.Tests/TemporaryFolder.cs','TemporaryFolder.cs')]),
'Publishing':(['Publishing'],['CsCheck'],[]),
'Intake':(['Intake'],[],[('../Archive.Records.Tests/WrittenArchive.cs','WrittenArchive.cs')]),
'Halls':(['Halls'],['CsCheck'],[]),
'Git':(['Comparison'],[],[]),
'Architecture':(['Cli'],[],[]),
}
for n,(pr,pk,links) in TESTS.items():
    s='<Project Sdk="Microsoft.NET.Sdk">\n  <ItemGroup>\n'+''.join(ref(p,'../../src') for p in pr)+''.join(f'    <PackageReference Include="{k}" />\n' for k in pk)
    for a,b in links: s+=f'    <Compile Include="{a}" Link="{b}" />\n'
    s+='  </ItemGroup>\n'
    s+='</Project>\n'
    w(f'tests/Archive.{n}.Tests/Archive.{n}.Tests.csproj',s)
w('tests/Archive.Site.Tests/Archive.Site.Tests.csproj','''<Project Sdk="Microsoft.NET.Sdk">
  <ItemGroup>
    <ProjectReference Include="../../src/Archive.Site/Archive.Site.csproj" />
    <PackageReference Include="AngleSharp" />
    <PackageReference Include="CsCheck" />
  </ItemGroup>
</Project>
''')
