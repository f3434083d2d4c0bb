import re,glob,os,sys,collections
root=sys.argv[1]
def code(t): return re.sub(r'//[^\n]*|^using [^\n]*|/\*.*?\*/',' ',t,flags=re.M|re.S)
for proj in sorted(os.listdir(root+'/src')):
    files=[]
    for p in glob.glob(f'{root}/src/{proj}/**/*.cs',recursive=True):
        below=os.path.relpath(p,f'{root}/src/{proj}')
        if below.startswith(('obj','bin')): continue
        files.append((below,'.'.join([proj]+below.split('/')[:-1]),open(p).read()))
    uses={f[1]:collections.defaultdict(set) for f in files}
    decl=collections.defaultdict(set)
    for b,f,t in files: decl[f]|=set(re.findall(r'^[a-z][a-z ]*\b(?:class|struct|record|interface|enum|delegate [\w<>?, ]+) ([A-Z]\w*)',code(t),re.M))
    for b,f,t in files:
        m=re.search(r'^namespace ([\w.]+);',t,re.M)
        if not m or m.group(1)!=f: print('NS',proj,b)
        for u in re.findall(r'^using (?:static )?([\w.]+);',t,re.M):
            if u!=f and u in uses: uses[f][u].add(b+': using')
        words=set(re.findall(r'(?<![\w.])[A-Z]\w*',code(t)))-decl[f]
        for a in uses:
            if f.startswith(a+'.') and decl[a]&words: uses[f][a].add(b+': '+','.join(sorted(decl[a]&words)))
    left=set(uses)
    while True:
        r=[f for f in left if not (set(uses[f])&(left-{f})) or not any(f in uses[o] for o in left-{f})]
        if not r: break
        left-=set(r)
    if left:
        print('CIRCLE',sorted(left))
        for a in sorted(left):
            for b in sorted(set(uses[a])&left): print('   ',a,'->',b,sorted(uses[a][b])[:6])
