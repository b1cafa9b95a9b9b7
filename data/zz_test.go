package data
import ("testing";"os";"bytes";"github.com/stretchr/testify/require";"daub.example/daub/model")
func TestZZ(t *testing.T){
 s:=Open("samples",t.TempDir())
 d,err:=s.Spoons(); require.NoError(t,err)
 es,_:=s.List()
 six:=sixTried()
 long:=sixTried()
 for i:=range long { long[i].Profile.Powder.Name="A powder with quite a long descriptive name that goes on & on <b>—"+long[i].Profile.Powder.Name; long[i].Profile.Powder.Lot="2026-04/B" }
 for i:=range long[:5] { long[i]=tried(long[i].Profile.Powder.Name, model.Mineral, 1+0.06*float64(i), 6+0.4*float64(i), 7.2, 2)}
 for name,in:=range map[string][]Entry{"one":es[2:3],"gap":six[5:],"two":{es[2],es[3]},"six":six,"long":long} {
 for _,f:=range PictureFormats(){ var b bytes.Buffer; require.NoError(t,Picture(&b,f,in,d,PictureOptions{})); os.WriteFile("/tmp/p-"+name+"."+f,b.Bytes(),0o644)}}
}
