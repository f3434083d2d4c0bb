import re,sys,os
os.chdir(sys.argv[1])
s=open('DEVELOPERS.md').read()
def sec(name,new):
    global s
    m=re.search(r'^## '+re.escape(name)+r'\n.*?(?=^## |\Z)',s,re.S|re.M)
    assert m,name
    s=s[:m.start()]+new.strip()+'\n\n'+s[m.end():]
sec('The way through','''## How it works
One build, from left to right. A project uses only projects to its left. `Archive.Architecture.Tests` checks this, and that the folders of a project do not depend on each other in circles. A namespace is a folder: what is in `src/Archive.Halls/Reach` is in `Archive.Halls.Reach`.

```
 Diagnostics ─> Storage ─> Markup ─> Drawings ─> LabelSheets ─┐
      │                      ^          ^                     │
      ├─────> Records ───────┴─> Halls ─┤                     ├─> Site ─> Publishing ─> Intake ────────┐
      │          ├─────────────> Wiring ┴─> Data ─> Plans ────┤              ^   └────> Preservation ──┼─> Cli
      │          └───> Search ─────────────────────────────── │ ─────────────┘               └ Comparison
      └─────> Photos ─────────────────────────────────────────┘                     Git ──────────┘
```

1. `Archive.Cli` turns arguments into options and calls `Publishing/Building/SiteBuild`.
2. `Records/Reading` reads all files in parallel: text becomes syntax with positions, then records. The result is a `ParseResult`, in which nothing has been judged yet.
3. `ArchiveModel.From` adds look-ups. The checks of `Records`, `Wiring` and `Halls` and the checks of prose and photos each return diagnostics.
4. Without errors, labels, wiring and hall layouts are computed (`PlanContext`), and from them the plans, in parallel. Photos are processed at the same time: each is decoded once for all sizes, tiles and measures, or comes from the cache.
5. `Site`, `Data` and `Search` return the list of files that the site will have. Each file is a function of immutable values and is rendered when it is needed.
6. `Publishing/Publication` renders in parallel, writes only what has changed into a new tree, and exchanges that with the old one in one step.

| project | what it does |
| --- | --- |
| `Archive.Diagnostics` | errors and warnings: codes, their pages, how they are reported |
| `Archive.Storage` | locks, work folders, exchange of folders, files to be written |
| `Archive.Records` | the record: model, reading, checks of the record against itself |
| `Archive.Wiring` | labels, connections, working sets, orders of taking out and putting back, what has happened since |
| `Archive.Halls` | where frames are, trays, which cables reach, loads on floors, feeders and movers |
| `Archive.Photos` | photos: inspected, measured, made into sizes and tiles, cached |
| `Archive.Markup` | HTML: escaping, links, Markdown, facts with their evidence, templates |
| `Archive.Data` | JSON and CSV: tables and the shapes of records |
| `Archive.Drawings` | SVG: floor plans, elevations, tray sections, charts, QR codes |
| `Archive.LabelSheets` | QR labels on sheets |
| `Archive.Plans` | plans: their sentences and tables; what is still to be recorded |
| `Archive.Search` | the search: index, shards, finder |
| `Archive.Site` | pages, IIIF, permanence |
| `Archive.Publishing` | check, build, incremental state, publication |
| `Archive.Intake` | new photos become records |
| `Archive.Git` | the git repository of an archive |
| `Archive.Preservation` | bags, audits, checksums, published addresses |
| `Archive.Comparison` | two states of an archive compared |
| `Archive.Cli` | commands, progress, exit codes, preview |

The `README.md` of each project says what it does and what it never does.
''')
reps=[('one room\'s tests','one project\'s tests'),('a project a room','one project for each job'),('a test project a room, and what crosses rooms: `Archive.House.Tests` (conventions)','a test project for each project, and what crosses projects: `Archive.Architecture.Tests` (conventions)'),
('look-ups in `AsFound`','look-ups in `ArchiveModel`'),('Declare the code in `Diagnostics/Faults/`','Declare the code in `Diagnostics/Descriptors/`'),('listed in the room\'s `…Checks`','listed in the project\'s `…Checks`'),('to that room\'s `tests/…/cases/`','to that project\'s `tests/…/cases/`'),('a case for each fault','a case for each code'),
('an entry in `SitePages`','an entry in `PageBuilders` and `SitePages`'),("What is computed lives in its room (`Wiring`, `Hall`), free of pages. In `Site/Plans/` a `Plan` gives it","What is computed is in its project (`Wiring`, `Halls`), free of pages. In `Archive.Plans` a `Plan` gives it"),
('its page (`plans/NAME/`) and the columns that a terminal shows; its `PlanKind` stands in `PlanKinds.All`','and the columns that a terminal shows; its `PlanKind` is in `PlanCatalog.All`'),('What several plans need is found once, in `PlanBasis`. Its template bears its name. Its page goes into `PageTypes.cs`.','What several plans need is computed once, in `PlanContext`. Its page (`plans/NAME/`) has a builder in `Site/PlanPages/`, created in `PageBuilders`, a template of the same name, and an entry in `PageTypes.cs`.'),
('`Enlarger` makes it from the plate or a level of it, `Engraver` writes it, `Pyramid` knows what it is called','`DerivativeGenerator` makes it from the pixels or a smaller level of them, `ImageEncoder` writes it, `TilePyramid` knows its name'),('`Plate.Blacken`','`PixelBuffer.Redact`'),
('stands in `Site/Search/SearchDocuments.cs`','is in `Search/Documents/SearchDocuments.cs`'),('(`Site/Search/Analysis`)','(`Search/Analysis`)'),('(`Site/Search/Finding`)','(`Search/Finding`)'),('`Site/Search/FORMAT.md`','`Search/FORMAT.md`'),('write it in `Site/Data/`','write it in `Data/Shapes/`'),
("Faults are values. A library's exceptions stop in the room that owns the library.","Errors are values. A library's exceptions stop in the project that wraps the library.")]
for a,b in reps:
    if a not in s: print('MISSING DEV',a[:70]); continue
    s=s.replace(a,b)
open('DEVELOPERS.md','w').write(s)
