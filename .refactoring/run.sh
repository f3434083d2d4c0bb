#!/bin/bash
# run.sh ROOT: split, remove Room.cs, apply, csproj, post
set -e
R=$1; W=$WORK
cd $R
for d in src/*/ tests/*/; do [ -f $TREES/split/$d/obj/project.assets.json ] && [ ! -f $d/obj/project.assets.json ] && mkdir -p $d/obj && cp $TREES/split/$d/obj/project.assets.json $d/obj/; done
git rm -q src/*/Room.cs || true
dotnet $W/bin2/tool.dll split $R $W
dotnet $W/bin2/tool.dll apply $R $W write
# projects that moved
git mv src/Archive.Hall/Archive.Hall.csproj src/Archive.Halls/Archive.Halls.csproj
git mv tests/Archive.House.Tests/Archive.House.Tests.csproj tests/Archive.Architecture.Tests/Archive.Architecture.Tests.csproj
git mv tests/Archive.Hall.Tests/Archive.Hall.Tests.csproj tests/Archive.Halls.Tests/Archive.Halls.Tests.csproj
rm -rf src/Archive.Hall tests/Archive.House.Tests tests/Archive.Hall.Tests
python3 $W/gencsproj.py $R
python3 $W/post.py $R
rm Archive.sln; dotnet new sln -n Archive --format sln >/dev/null; dotnet sln Archive.sln add $(ls src/*/*.csproj) --solution-folder src >/dev/null; dotnet sln Archive.sln add $(ls tests/*/*.csproj) --solution-folder tests > /dev/null
cp -r $W/overlay/. $R/
dotnet restore Archive.sln -v q
dotnet $W/bin3/tool.dll unused $R | tail -1
