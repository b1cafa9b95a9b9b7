package fit
import ("testing";"fmt";"math";"math/rand/v2";"os")
func TestBruteMany(t *testing.T){
 r:=rand.New(rand.NewPCG(uint64(len(os.Getenv("SEED"))),2))
 lv:=[]float64{1,1.5,2,2.5,3,3.5,4,4.5,5,5.5,6}
 for c:=range 120 {
  n:=[]int{1,2,3,4,5,6,8,9,10,12,15,20,30,60,200}[r.IntN(15)]
  step:=[]float64{1,0.5}[r.IntN(2)]
  d:=dish(r,n,step,math.Exp(r.Float64()*3-1),math.Exp(math.Log(6)+.5*r.NormFloat64()),math.Exp(math.Log(.4)+.35*r.NormFloat64()),[]float64{.2,.6,1,3}[r.IntN(4)])
  if c%10==9 { d.Looks=append(d.Looks, Look{d.Looks[0].PowderPerLiquid*3,0}) }
  level:=lv[r.IntN(11)]
  a,_:=Posterior(d,level); b:=brute(d,level)
  e:=[]float64{100*math.Log(a.Median/b.Median),100*math.Log(a.Low/b.Low),100*math.Log(a.High/b.High)}
  m:=0.; for _,x:=range e { m=max(m,math.Abs(x)) }
  hw:=100*math.Log(b.High/b.Low)/2
  fmt.Printf("%7.4f %7.4f n=%d step=%v L=%v e=%.3f w=%.1f%% %v c=%d\n",m,m/hw*100,len(d.Looks),step,level,e,hw,At(d,level).Reach,c)
 }
}
