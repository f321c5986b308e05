package spoken_test

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
)

// phrase is what a text says, and the acts that it asks for, with commas between them.
type phrase struct {
	re   *regexp.Regexp
	acts string
}

// phrases is what a pupil knows of a language.
type phrases struct {
	drill, learns, right, wrong, goOn, notSo, answer, rightOne *regexp.Regexp
	sticks, clear, armed, disarmed, turn, still, good, lost    *regexp.Regexp
	mark, value, reads, other, digits                          *regexp.Regexp
	stick, parts, left, keep, stay                             *regexp.Regexp
	up, down, toLeft, toRight                                  *regexp.Regexp
	refusals, asks, gestures                                   []phrase
}

// gestureIn is which gesture a text speaks of.
func (b *phrases) gestureIn(s string) string {
	for _, g := range b.gestures {
		if g.re.MatchString(s) {
			return g.acts
		}
	}
	return ""
}

// place is where a stick is to stand, across and up.
func (b *phrases) place(s string) (across, up byte) {
	across, up = '0', '0'
	switch {
	case b.toLeft.MatchString(s):
		across = '-'
	case b.toRight.MatchString(s):
		across = '+'
	}
	switch {
	case b.up.MatchString(s):
		up = '+'
	case b.down.MatchString(s):
		up = '-'
	}
	return across, up
}

// acts are those that a text asks for, in its order; of phrases that begin at one place the longest counts.
func (b *phrases) acts(s string) (all []string) {
	type found struct {
		at, end int
		acts    string
	}
	var in []found
	for _, p := range b.asks {
		for _, m := range p.re.FindAllStringSubmatchIndex(s, -1) {
			in = append(in, found{m[0], m[1], string(p.re.ExpandString(nil, p.acts, s, m))})
		}
	}
	slices.SortFunc(in, func(a, b found) int { return cmp.Or(a.at-b.at, b.end-a.end) })
	end := 0
	for _, f := range in {
		if f.at >= end {
			end = f.end
			parts := strings.Split(f.acts, ",")
			if strings.HasPrefix(f.acts, "set:") { // a value may have a comma in it
				parts = []string{f.acts}
			}
			all = append(all, slices.DeleteFunc(parts, func(act string) bool { return act == "" })...)
		}
	}
	return all
}

func table(rows ...string) (out []phrase) {
	for i := 0; i < len(rows); i += 2 {
		out = append(out, phrase{regexp.MustCompile(rows[i]), rows[i+1]})
	}
	return out
}

var re = regexp.MustCompile

// english and german are phrase books as a pupil of the language would have them.
func english() *phrases {
	return &phrases{
		drill: re(`^Drill: `), learns: re(`^It counts as learned`), right: re(`^Right`), wrong: re(`^(Wrong|Too late|False start|Guessed|Does not count)`),
		goOn: re(`^Press Enter to go on`), notSo: re(`^(Not so:|Not that one|Too early, before its turn: the right answer)`), answer: re(`^Answer (\d+): (.*)$`), rightOne: re(`^Seen: the right answer`),
		sticks: re(`by (the )?sticks`), clear: re(`^Nothing (else )?refuses arming`), armed: re(`^(Armed|ARMED)`), disarmed: re(`^(Disarmed|DISARMED)`), turn: re(`^The motors are turning`), still: re(`^The motors stand still`),
		good: re(`^The link is good`), lost: re(`^Link lost|^Radio off`), mark: re(`^Menu: the mark stands on “(.*)”`), value: re(`^Menu: “.*” is now (.*)\.$`), reads: re(`^Sticks: `), digits: re(`\d+([.,]\d+)?`),
		other: re(`^(Cleared|Seen|Still to come|Sticks: |DISARMED|ARMED|Arming refused|The link is|Mode \w+, from|Pack |Set-up cable|Radio o|Menu|The craft's own menu op|The camera's menu op|Gesture made|Nearly|Craft |Propellers fitted|The craft stands on|The craft sinks|The pack has .* V\.$|Air mode|The sticks stop|Stick mode|From the call|Keep |The drill is over|It takes|It is armed and|The sticks are moving)`),
		stick: re(`(left|right) stick ([^;.]*)`), parts: re(`Then `), left: re(`^left`), keep: re(`keep the changes`), stay: re(`keep the changes|put back|stay in`),
		up: re(`up`), down: re(`down`), toLeft: re(`to the left`), toRight: re(`to the right`),
		gestures: table(`craft's (own )?menu`, "craft", `camera's set-up`, "set-up", `camera's display|[Ww]hat the camera shows`, "display"),
		refusals: table(`^Throttle reads`, "hands:T-", `^The arm switch (is already|reads as) on`, "arm-switch:off", `^The second switch is off`, "second:on", `^The mode is`, "mode:angle",
			`^The craft is tilted`, "type:level", `is plugged into a computer`, "type:cable out", `menu is open`, "type:menu closed", `^The pack has .* asks for`, "type:power off,type:power on",
			`^The propellers have not`, "type:propellers checked", `^No link`, "", `^The link is only just`, "", `^The craft must stand still`, "", `carries no pulse;?|carries no pulse\.$`, "", `^The sticks were in the arming corner`, "hands:Y0", `^Throttle has gone no lower`, ""),
		asks: table(
			`[Tt]hrottle (fully )?down|[Tt]hrottle as low as it goes`, "hands:T-", `[Tt]hrottle (to|in) the middle`, "hands:T0", `[Tt]hrottle fully up`, "hands:T+",
			`all else in the middle|sticks in the middle|[Ll]et go of both sticks`, "hands:R0 P0 Y0", `let yaw go`, "hands:Y0",
			`Yaw fully left`, "hands:Y-", `Yaw fully right`, "hands:Y+", `Roll fully left`, "hands:R-", `Roll fully right`, "hands:R+", `Pitch fully forward`, "hands:P+", `Pitch fully back`, "hands:P-",
			`[Bb]oth sticks into their top right corners`, "hands:T+ Y+ R+ P+",
			`[Aa]rm (switch )?off`, "arm-switch:off", `[Aa]rm switch on`, "arm-switch:on", `second switch off`, "second:off",
			`from rate`, "", `([Mm]ode )?\b[Aa]ngle\b`, "mode:angle", `([Mm]ode )?\b[Hh]orizon\b`, "mode:horizon", `([Mm]ode )?\b[Rr]ate\b`, "mode:rate",
			`\b[Aa]rm\b`, "arm", `Arm with the throttle down`, "hands:T-,arm,wait", `[Dd]isarm\b`, "disarm", `Leave it disarmed`, "", `Try to arm by the sticks, hold the corner`, "corner",
			`STOP!`, "stop,hands:T-", `[Mm]ake safe`, "arm-switch:off,hands:T-", `watch the craft`, "wait", `see the motors stand`, "still",
			`take the pack off`, "type:power off", `connect the pack`, "type:power on", `pack, radio, arm switch`, "type:power off,type:link off,arm-switch:off",
			`Power everything on`, "type:link on,type:power on", `Power everything off`, "type:power off,type:link off", `[Rr]adio off`, "type:link off", `[Rr]adio on`, "type:link on",
			`let the motors turn`, "motors", `, watch,`, "watch", `[Tt]urn the radio on`, "type:link on", `[Ww]ait for it to be good`, "good",
			`[Ff]ind out why`, "cure", `put it right with your hands|cure it at the craft`, "", `move all sticks and the mode switch`, "sweep,turn-mode", `Move them all`, "sweep",
			`, answer, and`, "answer", `(Open )?[Tt]he craft's (own )?menu!?|Open the craft's (own )?menu`, "gesture:craft", `(Open )?[Tt]he camera's set-up`, "gesture:set-up", `(Open w|W)hat the camera shows`, "gesture:display",
			`set the warning of a low pack (back )?to ([\d.]+)`, "set:warn of a low pack=$2", `leave and keep`, "keep",
			`the radio off`, "type:link off", `pack still off|pack stays off`, "", `The flight is over`, "",
			`(radio|pack) will be (turned on|connected) for you`, "", `Leave everything so`, ""),
	}
}

func german() *phrases {
	return &phrases{
		drill: re(`^Übung: `), learns: re(`^Die Übung gilt `), right: re(`^Richtig`), wrong: re(`^(Falsch|Zu spät|Fehlstart|Geraten|Zählt nicht)`),
		goOn: re(`^Weiter mit Enter`), notSo: re(`^(So ist es nicht:|Das ist es nicht|Zu früh, noch nicht an der Reihe: die richtige Antwort)`), answer: re(`^Antwort (\d+): (.*)$`), rightOne: re(`^Gesehen: [Dd]ie richtige Antwort`),
		sticks: re(`[Mm]it den Knüppeln|[Mm]it Knüppeln`), clear: re(`^Nichts (weiter |sonst |mehr )?verweigert das`), armed: re(`^(Scharf geschaltet|SCHARF)`), disarmed: re(`^(Gesichert|GESICHERT)`), turn: re(`^Die Motoren drehen`), still: re(`^Die Motoren stehen still`),
		good: re(`^Die Verbindung ist gut`), lost: re(`^Verbindung verloren|^Sender aus: `), mark: re(`^Menü: Die Marke steht auf „(.*)“`), value: re(`^Menü: „.*“ ist jetzt (.*)\.$`), reads: re(`^Knüppel: `), digits: re(`\d+([.,]\d+)?`),
		other: re(`^(Von oben|Behoben|Gesehen|Es fehlt noch|Knüppel: |GESICHERT|SCHARF|Nicht scharf|Die Verbindung (ist|steht;)|Modus \w+, vorher|Akku (an|ab)gesteckt:|Einstellkabel|Sender (an|aus): |Menü|Eigenes Menü des Copters ge|Menü der Kamera ge|Geste |Copter (um|waag|ang)|Montierte|Der Copter steht auf|Der Copter sinkt|Der Akku hat [\d,]+.V\.$|Der Luftmodus|Die Knüppel enden|Knüppelmodus|Ab der Ansage|Halte |Lass Knüppel|Die Übung ist vorbei|Der Copter wird immer|Die Knüppel bewegen)`),
		stick: re(`(linker|rechter) Knüppel ([^;.]*)`), parts: re(`Dann, `), left: re(`^linker`), keep: re(`Änderungen behalten`), stay: re(`Änderungen behalten|alles wie zuvor|im Menü bleiben`),
		up: re(`oben`), down: re(`unten`), toLeft: re(`links`), toRight: re(`rechts`),
		gestures: table(`Menü des Copters`, "craft", `Einstellungen der Kamera|Kameraeinstellungen`, "set-up", `was die Kamera zeigt|Was die Kamera zeigt|Anzeige der Kamera|Kameraanzeige`, "display"),
		refusals: table(`^Das Gas steht auf`, "hands:T-", `^Der Scharfschalter (ist schon|wird als) an`, "arm-switch:off", `^Der Zweitschalter ist aus`, "second:on", `^Der Modus ist`, "mode:angle",
			`^Der Copter steht um`, "type:level", `an einem Computer`, "type:cable out", `^Das .*Menü .*ist offen`, "type:menu closed", `^Der Akku hat .*verlangt`, "type:power off,type:power on",
			`^Die Propeller sind noch nicht`, "type:propellers checked", `^Keine Verbindung`, "", `^Die Verbindung steht eben erst`, "", `^Der Copter muss noch`, "", `keinen (gültigen )?Impuls\.$|trägt keinen`, "", `^Die Knüppel waren zu früh`, "hands:Y0", `^Tiefer als`, ""),
		asks: table(
			`Gas (ganz nach )?unten|Gas runter|Gas so weit unten`, "hands:T-", `Gas in d(ie|er) Mitte`, "hands:T0", `Gas ganz nach oben`, "hands:T+",
			`alles andere in der Mitte|Knüppel in der Mitte|Lass beide Knüppel los`, "hands:R0 P0 Y0", `lass Gier los`, "hands:Y0",
			`Gier ganz nach links`, "hands:Y-", `Gier ganz nach rechts`, "hands:Y+", `Roll ganz nach links`, "hands:R-", `Roll ganz nach rechts`, "hands:R+", `Nick ganz nach vorn`, "hands:P+", `Nick ganz nach hinten`, "hands:P-",
			`Beide Knüppel in ihre Ecke oben rechts`, "hands:T+ Y+ R+ P+",
			`Scharfschalter aus`, "arm-switch:off", `Scharfschalter an\b`, "arm-switch:on", `Zweitschalter aus`, "second:off",
			`von Rate aus`, "", `(Modus )?\bWinkel\b`, "mode:angle", `(Modus )?\bHorizont\b`, "mode:horizon", `(Modus )?\bRate\b`, "mode:rate",
			`[Ss]charf schalten|[Ss]chalte ((wieder|mit den Knüppeln) )?scharf`, "arm", `Mit den Knüppeln scharf schalten`, "arm", `Schalte bei Gas unten scharf`, "hands:T-,arm,wait", `\bsichern?e?\b`, "disarm", `Versuch, mit den Knüppeln scharf zu schalten, halte die Ecke`, "corner",
			`STOPP!`, "stop,hands:T-", `Mach alles sicher`, "arm-switch:off,hands:T-", `beobachte den Copter`, "wait", `Motoren stehen siehst`, "still",
			`nimm den Akku ab`, "type:power off", `steck den Akku an`, "type:power on", `Akku, Sender, Scharfschalter`, "type:power off,type:link off,arm-switch:off",
			`Schalte alles ein`, "type:link on,type:power on", `Schalte alles aus`, "type:power off,type:link off", `Sender aus`, "type:link off", `Sender an`, "type:link on",
			`Motoren drehen lassen`, "motors", `, hinsehen,`, "watch", `Schalte den Sender ein`, "type:link on", `warte, bis sie gut ist`, "good",
			`Finde heraus, warum`, "cure", `bewege alle Knüppel und den Modusschalter`, "sweep,turn-mode", `Beweg alle,`, "sweep",
			`, antworte,`, "answer", `(Öffne d|D)as (eigene )?Menü des Copters`, "gesture:craft", `(Öffne d|D)ie Einstellungen der Kamera`, "gesture:set-up", `(Öffne, w|W)as die Kamera zeigt`, "gesture:display",
			`stell die Akkuwarnung (zurück )?auf ([\d,]+)`, "set:Akkuwarnung bei=$2", `verlass das Menü und behalte`, "keep",
			`der Sender aus`, "type:link off", `Akku noch ab|Akku bleibt ab`, "", `Der Flug ist vorbei`, "",
			`(Sender|Akku) wird für dich`, "", `Lass alles so`, "", `Lass ihn GESICHERT`, ""),
	}
}
