package fit
import ("testing";"encoding/json";"os";"fmt";"math";"time")
func TestScratch(t *testing.T){
 var f struct{Cases []struct{Name string; PowderPerLiquid []float64 `json:"powder_per_liquid"`; Levels []float64; LevelStep float64 `json:"level_step"`; Level, Median, Low, High float64}}
 b,_:=os.ReadFile("../../testdata/fit_cases.json"); if err:=json.Unmarshal(b,&f);err!=nil{t.Fatal(err)}
 for _,c:=range f.Cases{
  d:=Data{LevelStep:c.LevelStep}
  for i,x:=range c.PowderPerLiquid{d.Looks=append(d.Looks,Look{x,c.Levels[i]})}
  t0:=time.Now()
  iv,_:=Posterior(d,c.Level)
  el:=time.Since(t0)
  fmt.Printf("%-36s %8.4f%% %8.4f%% %8.4f%%  %v %v\n",c.Name,100*math.Log(iv.Median/c.Median),100*math.Log(iv.Low/c.Low),100*math.Log(iv.High/c.High),el, At(d,c.Level).Reach)
 }
}
var benchLevels = []float64{1,1.5,2,2.5,3,3.5,4,4.5,5,5.5,6}
func look30() Data { d:=Data{LevelStep:1}; for i:=range 30 { x:=0.1*math.Pow(1.1,float64(i)); z:=5+6*math.Log(x/0.55)+0.4*math.Sin(float64(7*i)); d.Looks=append(d.Looks,Look{x,math.Min(7,math.Max(0,math.Round(z)))})}; return d }
func BenchmarkLevels30(b *testing.B){ d:=look30(); b.ReportAllocs(); for b.Loop(){ Levels(d,benchLevels)} }
func BenchmarkFar30(b *testing.B){ d:=look30(); b.ReportAllocs(); for b.Loop(){ FarOut(d,5)} }
func BenchmarkTables(b *testing.B){ d:=look30(); b.ReportAllocs(); for b.Loop(){ tables.of=map[cell]*table{}; Levels(d,benchLevels)} ; b.ReportMetric(float64(len(tables.of)),"tables")}
