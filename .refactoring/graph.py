import collections,sys
rules=[]
for l in open('$WORK/moves.txt'):
    l=l.split('#')[0].split()
    if len(l)==2: rules.append(l)
rules.sort(key=lambda r:-len(r[0]))
def target(f):
    for a,b in rules:
        if f==a or (a.endswith('/') and f.startswith(a)): return b
    return None
if __name__=='__main__':
    refs=[l.rstrip('\n').split('\t') for l in open('$WORK/an/refs.tsv')]
    level=sys.argv[1]
    def node(f):
        t=target(f)
        if t is None: return None
        p=t.split('/')
        return p[0] if level=='project' else t if level=='full' else '/'.join(p[:2])
    g=collections.defaultdict(lambda: collections.defaultdict(collections.Counter))
    for a,b,t,m,n in refs:
        if not a.startswith('src/') or not b.startswith('src/') or a.endswith('Room.cs') or b.endswith('Room.cs'): continue
        A,B=node(a),node(b)
        if A and B and A!=B: g[A][B][(a.split('/')[-1],b.split('/')[-1],t.split('.')[-1]+'.'+m)]+=int(n)
    # SCC
    idx={};low={};st=[];on=set();out=[];c=[0]
    sys.setrecursionlimit(10000)
    def go(v):
        idx[v]=low[v]=c[0];c[0]+=1;st.append(v);on.add(v)
        for w in g[v]:
            if w not in idx: go(w);low[v]=min(low[v],low[w])
            elif w in on: low[v]=min(low[v],idx[w])
        if low[v]==idx[v]:
            comp=[]
            while True:
                w=st.pop();on.discard(w);comp.append(w)
                if w==v: break
            out.append(comp)
    nodes=sorted(set(g)|{b for a in g for b in list(g[a])})
    for v in nodes:
        if v not in idx: go(v)
    for comp in out:
        if len(comp)>1:
            print('CYCLE',sorted(comp))
            for a in sorted(comp):
                for b in sorted(comp):
                    if b in g[a]:
                        tot=sum(g[a][b].values())
                        print('  ',a,'->',b,tot, '' if tot>14 else '; '.join(f'{x[0]}>{x[1]}:{x[2]}x{n}' for x,n in sorted(g[a][b].items())) if tot<=14 else '')
    if level=='project':
        for a in out: 
            for v in a: print(v,'->',', '.join(sorted(g[v])))
