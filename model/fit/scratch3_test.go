package fit
import ("testing";"fmt";"math";"math/rand/v2")
func TestShow(t *testing.T){
 r:=rand.New(rand.NewPCG(0,2))
 lv:=[]float64{1,1.5,2,2.5,3,3.5,4,4.5,5,5.5,6}
 for c:=range 120 {
  n:=[]int{1,2,3,4,5,6,8,9,10,12,15,20,30,60,200}[r.IntN(15)]
  step:=[]float64{1,0.5}[r.IntN(2)]
  d:=dish(r,n,step,math.Exp(r.Float64()*3-1),math.Exp(math.Log(6)+.5*r.NormFloat64()),math.Exp(math.Log(.4)+.35*r.NormFloat64()),[]float64{.2,.6,1,3}[r.IntN(4)])
  if c%10==9 { d.Looks=append(d.Looks, Look{d.Looks[0].PowderPerLiquid*3,0}) }
  level:=lv[r.IntN(11)]
  if c==95||c==29||c==104||c==81||c==79||c==48||c==88 { fmt.Println(c,level,d); var p posterior; p.solve(merge(d),quarters(level)); fmt.Println(p.place,p.slope); fmt.Printf("%.3g\n%.3g\n",p.byPlace,p.bySlope) }
 }
}
