import re,os,subprocess
os.chdir('$TREES/split/src/Archive.Site')
P={'Record':('AsFound','archive','The archive.'),'Contents':('SiteContents','site','All that the pages are made from.'),'References':('CrossReferences','references','What refers to what.'),
'Prose':('Prose','prose','Makes prose.'),'Figures':('Figures','formatter','Writes facts with their units and evidence.'),'Rows':('RowMaker','rowBuilder','Makes rows of tables.'),'Lists':('Lists','lists','The lists that pages link into.'),
'Lacks':('LackFinder','lacks','Finds what the record lacks.'),'Plates':('PageDrawings','drawings','Makes drawings.'),'Provenances':('Provenances','provenances','Says where facts come from.'),
'ReadyLabels':('ReadyLabels','readyLabels','The QR labels that the site holds ready.'),'Labels':('LabelViews','labelViews','Says how labels read.'),'EndPhotos':('EndPhotos','endPhotos','Finds what ends of cables look like.'),
'PAGES':('PageFactory','pageFactory','Makes pages and their heads.')}
ORDER=['Contents','Record','References','PAGES','Prose','Figures','Rows','Lists','Plates','Provenances','Lacks','Labels','EndPhotos','ReadyLabels']
files=subprocess.run("grep -rlw Desk --include=*.cs .",shell=True,capture_output=True,text=True).stdout.split()
for f in files:
    if f.endswith(('Desk.cs','SitePages.cs','IiifFiles.cs','Lists.cs')) : continue
    s=open(f).read()
    if 'desk.' not in s: continue
    used=set()
    for m in re.finditer(r'\b_?desk\.([A-Z]\w*)(\.Record\b)?',s):
        k=m.group(1)
        if k in('Page','Head','PlanHead','Permalink'): k='PAGES'
        if k=='Contents' and m.group(2): k='Record'
        used.add(k)
    both='Contents' in used and 'Record' in used
    if both: used.discard('Record')
    field='_desk' in s
    pre='_' if field else ''
    def rep(m):
        k=m.group(1)
        if k in('Page','Head','PlanHead','Permalink'): return f'{pre}pageFactory.{k}'
        if k=='Record': return f'{pre}site.Record' if both else f'{pre}archive'
        return pre+P[k][1]
    n=re.sub(r'\b_?desk\.([A-Z]\w*)',rep,s)
    ks=[k for k in ORDER if k in used]
    params=', '.join(f'{P[k][0]} {P[k][1]}' for k in ks)
    docs='\n'.join(f'/// <param name="{P[k][1]}">{P[k][2]}</param>' for k in ks)
    n=n.replace('(Desk desk',"("+params)
    if field:
        n=n.replace('    private readonly Desk _desk;\n',''.join(f'    private readonly {P[k][0]} _{P[k][1]};\n' for k in ks))
        n=n.replace('_desk = desk;','('+', '.join('_'+P[k][1] for k in ks)+') = ('+', '.join(P[k][1] for k in ks)+');')
    n=re.sub(r'( *)/// <param name="desk">[^\n]*',lambda m: '\n'.join(m.group(1)+d for d in docs.split('\n')),n)
    if field: print('FIELD',f,ks)
    cl=re.search(r'\n(?:internal|public) sealed class \w+\(',n)
    body=n
    for k in ks:
        nm=P[k][1]
        for m in re.finditer(r'(\b(?:var|foreach \(var|[A-Z]\w*(?:<[^>]*>)?\??) '+nm+r'\b(?! *,? *[A-Z]))|\b'+nm+r' =>|[(,] ?'+nm+r' ?[,)]',body):
            ln=body[:m.start()].count('\n')+1
            print('COLL?',f,ln,body.split('\n')[ln-1].strip()[:150])
    open(f,'w').write(n)
