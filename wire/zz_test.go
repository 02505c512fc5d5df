package wire
import ("testing";"github.com/shopspring/decimal";"fmt";"math/rand/v2";"math";"os";"strconv";"encoding/json";"time")

func num(r *rand.Rand, lo, hi float64) decimal.Decimal { return decimal.NewFromFloat(lo+r.Float64()*(hi-lo)).Round(3) }
func logn(r *rand.Rand, lo, hi float64) decimal.Decimal { return decimal.NewFromFloat(math.Exp(math.Log(lo)+r.Float64()*math.Log(hi/lo))).Round(3) }

func rnd(r *rand.Rand, wide bool) Network {
	var n Network
	nodes := 2+r.IntN(7)
	name := func(i int) string { if i==0 {return CommonReturn}; return fmt.Sprint("n",i)}
	mr := func() decimal.Decimal { if wide { return logn(r, 0.001, 1e6) }; return logn(r, 0.1, 100) }
	oneline := r.IntN(3)==0
	any := func() int { if oneline {return 0}; if r.IntN(2)==0 {return 0}; return r.IntN(nodes+1) }
	br := func(a,b int) { if a!=b { n.Branches=append(n.Branches, Branch{Name: fmt.Sprint("b",len(n.Branches)),From:name(a),To:name(b),Milliohm:mr()})}}
	for i:=2;i<=nodes;i++ { if r.IntN(5)>0 { br(i,1+r.IntN(i-1)) } }
	for range r.IntN(3) { br(1+r.IntN(nodes),1+r.IntN(nodes)) }
	if !oneline { for range r.IntN(3) { br(r.IntN(nodes+1),1+r.IntN(nodes)) } }
	for i := range 1+r.IntN(5) {
		s := Source{Name: fmt.Sprint("s",i), EMFV: num(r,5,30), Milliohm: mr()}
		if r.IntN(3)==0 { s.EMFV = decimal.NewFromInt(int64(12)) }
		a,b := 1+r.IntN(nodes), any(); if a==b {b=0}
		s.Node,s.Return=name(a),name(b)
		if r.IntN(3)>0 { s.LimitA=decimal.NewNullDecimal(logn(r,0.5,200)) }
		n.Sources=append(n.Sources,s)
	}
	for i := range r.IntN(6) {
		l := Load{Name: fmt.Sprint("l",i)}
		a,b := 1+r.IntN(nodes), any(); if a==b {b=0}
		l.Node,l.Return=name(a),name(b)
		switch r.IntN(6) {
		case 0: l.CurrentA = decimal.NewNullDecimal(num(r,-5,30))
		case 1: l.Ohm=decimal.NewNullDecimal(logn(r,0.1,1000))
		default: l.PowerW=decimal.NewNullDecimal(logn(r,1,2000))
		}
		n.Loads=append(n.Loads,l)
	}
	return n
}

func TestZZ(t *testing.T) {
	N,_ := strconv.Atoi(os.Getenv("ZN")); if N==0 {N=20000}
	seed,_ := strconv.Atoi(os.Getenv("ZS"))
	wide := os.Getenv("ZW")!=""
	r := rand.New(rand.NewPCG(uint64(seed),7))
	var bad,ok,col,uns int
	var worst time.Duration
	var maxres float64
	for i := range N {
		n := rnd(r,wide)
		if _,err := n.circuit(); err!=nil {bad++;continue}
		t0:=time.Now()
		s,err := n.Solve()
		if d:=time.Since(t0); d>worst {worst=d; if d>50*time.Millisecond {fmt.Println("slow",i,d)}}
		if err!=nil { uns++; if uns<4 { j,_:=json.Marshal(n); fmt.Println(i,err,string(j))}; continue }
		if s.CollapsedAt!="" {col++;continue}
		ok++
		// residual from the reported currents; and ohm's law mismatch
		c,_ := n.circuit()
		f := make([]float64,len(c.nodes))
		for k,e := range c.elements { var a float64
			switch { case k<c.sources: a=-s.Sources[k].CurrentA.InexactFloat64(); case k<c.sources+c.branches: a=s.Branches[k-c.sources].CurrentA.InexactFloat64(); default: a=s.Loads[k-c.sources-c.branches].CurrentA.InexactFloat64()}
			f[e.from]+=a;f[e.to]-=a
			u := s.across(k).InexactFloat64()
			i,g := e.through(u,1)
			m := math.Abs(i-a)/math.Max(1,math.Abs(g)) // volts or amperes
			if m>1e-6 { fmt.Println("mismatch",i,a,u,m, k); j,_:=json.Marshal(n); fmt.Println(string(j)); t.Fail() }
		}
		for j := range f { if !c.fixed[j] { maxres=math.Max(maxres,math.Abs(f[j])) } }
	}
	fmt.Println("bad",bad,"ok",ok,"collapsed",col,"unsettled",uns,"worst",worst,"residual",maxres)
}
