package model_test
import ("testing";"fmt";"time")
func TestSimQuick(t *testing.T){
 N:=300
 for _,tol:=range []float64{0.12,0.20} { for _,fam:=range []bool{false,true} {
 b:=bench{tolerance:tol,family:fam}
 t0:=time.Now()
 fmt.Println("advice",tol,fam,b.play(N,b.advised), time.Since(t0))
 }}
 b:=bench{tolerance:0.12}
 fmt.Println("half  ",b.play(N,func(n int) outcome{return b.byHand(n,false)}))
 fmt.Println("care  ",b.play(N,func(n int) outcome{return b.byHand(n,true)}))
 b=bench{tolerance:0.12,family:true,scoops:0.05,weighings:3}
 fmt.Println("masses",b.play(N,b.advised))
 b=bench{tolerance:0.12,family:true,scoops:0.05,weighings:3,bend:0.3,absent:0.05}
 fmt.Println("bent  ",b.play(N,b.advised))
}
