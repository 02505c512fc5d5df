package main
import ("fmt";"example.org/extralow/battery";"github.com/shopspring/decimal")
var d = decimal.RequireFromString
func main(){
 p:=battery.Peukert{Slow:battery.HourRating{d("200"),d("20")},Fast:battery.HourRating{d("120"),d("1")}}
 e,err:=p.Exponent(); fmt.Println(e.Exponent,e.FastA,err)
 for _,a:=range []string{"5","10","20","50","100","119","120","121"}{ r,err:=p.At(d(a)); fmt.Println(a,r.TimeH,r.CapacityAh,err)}
 for _,ch:=range []string{"lead-acid AGM","LiFePO4"}{ for _,t:=range []string{"-10","0","10","25","40"}{
  b:=battery.Bank{Batteries:[]battery.Battery{{Name:"x",Chemistry:ch,NominalV:d("12"),CapacityAh:d("200"),FullV:d("12.8"),EmptyV:d("12"),DepthPercent:decimal.NewNullDecimal(d("100")),AgeingPercent:decimal.NewNullDecimal(d("100"))}},Series:1,BatteryC:decimal.NewNullDecimal(d(t))}
  u,err:=b.Usable(); fmt.Println(ch,t,u.ChargeAh,err)
  if t=="0" {fmt.Println(u.Working)}
 }}
}
