package mend
import ("testing";"time";"fmt";"propsoff/sim/link";"propsoff/sim/pulse";"propsoff/sim/layout")
func TestZZ(t *testing.T){
 for name,m:=range map[string]*made{
 "hold": bySwitch().with(func(m *made){m.Config.Link.OnLoss=link.RepeatsLast}),
 "stored": bySwitch().stored(988,1500,2012),
 "lowmark": bySwitch().with(func(m *made){m.Config.Arming.LowThrottle=pulse.Micros(1100)}),
 "armbeyond": bySwitch().with(func(m *made){m.Config.Layout.ArmSpan=us(2050,2180)}),
 "gap": bySwitch().modes(in(layout.Angle,860,1250),in(layout.Rate,1750,2180)),
 "ratefirst": bySwitch().modes(in(layout.Rate,860,1250),in(layout.Rate,1250,2180)),
 "springs": bySwitch().with(func(m *made){m.control("arm").Momentary=true}),
 "springs bare": bySwitch().bare().with(func(m *made){m.control("arm").Momentary=true}),
 "three": bySwitch().with(func(m *made){m.Config.Link.OnLoss=link.RepeatsLast;m.Config.Arming.LowThrottle=pulse.Micros(1100);m.Config.Layout.ArmSpan=us(2050,2180)}),
 "sticks hold": bySticks().with(func(m *made){m.Config.Link.OnLoss=link.RepeatsLast}),
 "sticks short": bySticks().travel("throttle",1012,2012).travel("yaw",1100,1900),
 "sticks late": bySticks().stored(988,988,0),
 }{
 t0:=time.Now()
 last:=Progress{}
 r,err:=Find(m.Layout,0,Options{Progress:func(p Progress)bool{last=p;return time.Since(t0)>60*time.Second}})
 fmt.Println(name,time.Since(t0),err,r.Verdict().Code(),"singles",r.Singles,"tried",r.Tried,"proofs",r.Proofs,last.Changes,last.Tried,last.Of)
 for _,m:=range r.Mends { fmt.Print("   ",m.Relearn); for _,c:=range m.Changes {fmt.Print("  ",c.Kind.Code()," ",c.Was,"->",c.Is," ",c.Places, " ctl",c.Control)}; fmt.Println()}
 }
}
