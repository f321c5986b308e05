package terminal

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"text/tabwriter"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/lossmap"
)

// MapSlice is at which throttle, and in which wind, a map is looked at, by their places on the axes.
type MapSlice struct{ Throttle, Wind int }

// In tells whether a spot is seen.
func (s MapSlice) In(at lossmap.Spot) bool { return at.Throttle == s.Throttle && at.Wind == s.Wind }

// Map appends where a lost link leads: as text tables of one slice and the worst of all, as JSON a line with the code "loss-map" and one with the
// code "point" for each point. title and does are told before.
func (f Form) Map(dst []byte, m *lossmap.Map, name, receiver string, title, does words.Text, at MapSlice) []byte {
	if f.JSON {
		return mapJSON(dst, m, name, receiver)
	}
	b := bytes.NewBuffer(dst)
	fmt.Fprintf(b, "%s\n%s\n%s\n", say(f.Book, title), say(f.Book, does), say(f.Book, words.T("loss-map.stands")))
	fmt.Fprintf(b, "%s\n\n%s\n%s\n", say(f.Book, words.T("loss-map.all-points", words.Args{"all": words.Grouped(m.Points()), "heights": words.Whole(len(m.Heights)),
		"climbs": words.Whole(len(m.Climbs)), "throttles": words.Whole(len(m.Throttles)), "winds": words.Whole(len(m.Winds))})),
		say(f.Book, words.Row(tell.MapThrottle(m, at.Throttle), tell.MapWind(m.Winds[at.Wind]))),
		say(f.Book, words.T("loss-map.rows", words.Args{"height": words.T("loss-map.height"), "climb": words.T("loss-map.climb")})))
	for q := range lossmap.Measure(lossmap.Measures) {
		fmt.Fprintf(b, "\n%s\n", say(f.Book, tell.MapMeasure(q)))
		f.mapTable(b, m, q, at)
		if worst := tell.MapWorst(m, q, false, at.In); !worst.Empty() {
			fmt.Fprintf(b, "%s\n", say(f.Book, worst))
		}
	}
	fmt.Fprintf(b, "\n%s\n", say(f.Book, words.T("loss-map.worst-by")))
	f.worstTable(b, m)
	fmt.Fprintf(b, "%s\n", say(f.Book, tell.MapWorst(m, lossmap.BySpeed, true, nil)))
	return b.Bytes()
}

// mapEvery is of how many heights one has a row, climbEvery of how many climbs one a column (ours): all are in the file.
const mapEvery, climbEvery = 4, 3

// mapTable writes what a measure comes to in one slice, and what its mark for no end means; where there is nothing else, that alone.
func (f Form) mapTable(b *bytes.Buffer, m *lossmap.Map, q lossmap.Measure, at MapSlice) {
	var text bytes.Buffer
	ends, never := false, false
	table := tabwriter.NewWriter(&text, 0, 0, 2, ' ', tabwriter.AlignRight)
	for c := 0; c < len(m.Climbs); c += climbEvery {
		fmt.Fprintf(table, "\t%s", say(f.Book, tell.MapStep(m.Climbs[c])))
	}
	fmt.Fprintln(table, "\t")
	for h := 0; h < len(m.Heights); h += mapEvery {
		fmt.Fprint(table, say(f.Book, tell.MapStep(m.Heights[h])))
		for c := 0; c < len(m.Climbs); c += climbEvery {
			o, _ := m.Outcome(lossmap.Spot{Height: h, Climb: c, Throttle: at.Throttle, Wind: at.Wind})
			v := q.Of(&o)
			endless := tell.MapClass(q, v) == tell.MapClasses
			ends, never = ends || !endless, never || endless
			fmt.Fprintf(table, "\t%s", say(f.Book, tell.MapValue(q, v)))
		}
		fmt.Fprintln(table, "\t")
	}
	if !ends {
		fmt.Fprintf(b, "%s\n", say(f.Book, tell.MapNever(q)))
		return
	}
	_ = table.Flush()
	b.Write(text.Bytes())
	if never {
		fmt.Fprintf(b, "%s\n", say(f.Book, tell.MapLegend(q, tell.MapClasses)))
	}
}

// worstTable writes the greatest speed on the ground by throttle and wind.
func (f Form) worstTable(b *bytes.Buffer, m *lossmap.Map) {
	table := tabwriter.NewWriter(b, 0, 0, 2, ' ', 0)
	fmt.Fprintf(table, "%s", say(f.Book, words.T("loss-map.table-throttle")))
	for _, w := range m.Winds {
		fmt.Fprintf(table, "\t%s %s", say(f.Book, words.T("loss-map.table-wind")), say(f.Book, tell.MapStep(w)))
	}
	fmt.Fprintln(table)
	for t := range m.Throttles {
		fmt.Fprint(table, say(f.Book, tell.MapThrottleName(t)))
		for w := range m.Winds {
			s, _ := m.Worst(lossmap.BySpeed, MapSlice{t, w}.In)
			o, _ := m.Outcome(s)
			fmt.Fprintf(table, "\t%s", say(f.Book, tell.MapValue(lossmap.BySpeed, lossmap.BySpeed.Of(&o))))
		}
		fmt.Fprintln(table)
	}
	_ = table.Flush()
}

// mapNames are the columns of a point, in JSON and in a table.
var mapNames = []string{"height_m", "climb_m_per_s", "throttle", "throttle_us", "wind_m_per_s", "ground_s", "ground_m_per_s", "downward_m_per_s", "found_away_m", "motors_stop_s", "pack_empty_s", "highest_m"}

// mapValues are the values of a point by those names; nil for what never happens.
func mapValues(m *lossmap.Map, i int) []any {
	s := m.At(i)
	p := m.Point(s)
	o, _ := m.Outcome(s)
	of := func(v float64, there bool) any {
		if !there {
			return nil
		}
		return round3(v)
	}
	down := o.Down >= 0
	return []any{p.Height, p.Climb, tell.MapThrottleCode(s.Throttle), float64(p.Throttle) / 8, p.Wind,
		of(o.Down, down), of(o.Speed, down), of(o.Sinks, down), of(o.Away, down), of(o.Turns, o.Turns >= 0), of(o.Empty, o.Empty >= 0), round3(o.Top)}
}

func mapJSON(dst []byte, m *lossmap.Map, name, receiver string) []byte {
	dst = AppendFields(dst, "code", "loss-map", "craft", name, "receiver", receiver, "points", m.Points())
	for i := range m.Points() {
		fields := []any{"code", "point"}
		for n, v := range mapValues(m, i) {
			fields = append(fields, mapNames[n], v)
		}
		dst = AppendFields(dst, fields...)
	}
	return dst
}

// MapCSV writes every point as a table (RFC 4180) with a line of names first; what never happens is empty.
func MapCSV(m *lossmap.Map, w io.Writer) error {
	out := csv.NewWriter(w)
	if err := out.Write(mapNames); err != nil {
		return err
	}
	for i := range m.Points() {
		var row []string
		for _, v := range mapValues(m, i) {
			switch v := v.(type) {
			case float64:
				row = append(row, strconv.FormatFloat(v, 'f', -1, 64))
			case string:
				row = append(row, v)
			default:
				row = append(row, "")
			}
		}
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}
