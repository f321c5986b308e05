// Package flightlog is one flight as rows: for a table (CSV) and for a plot.
package flightlog

import (
	"encoding/csv"
	"io"
	"math"
	"strconv"

	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/sim"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/vec"
)

// Row is the craft at one tick. Angles are in degrees, rates in degrees per second, lengths in metres, speeds in m/s.
type Row struct {
	Tick                       int64
	Armed                      bool
	Mode                       layout.Mode
	Link                       string
	North, East, Height        float64
	Speed, Climb               float64 // over the ground, and upwards
	Bank, Pitch, Heading       float64 // to the right, nose up, from north clockwise
	Rate, Asked                [3]float64
	Throttle, Roll, Fore, Turn float64 // what the last frame said, µs
	Motor                      [flight.Motors]float64
	Volts, Used                float64 // V and mAh
}

// Log is a flight: its rows, every so many ticks, and what happened.
type Log struct {
	// Every is how many ticks lie between two rows, at least 1.
	Every      int64
	Rows       []Row
	Happenings []happening.Happening
	cfg        *sim.Config
}

// New begins a log of a craft.
func New(cfg *sim.Config, every int64) *Log { return &Log{Every: max(every, 1), cfg: cfg} }

// Add notes the tick that was stepped last; snapshot is called only where a row is due.
func (l *Log) Add(tick int64, happened []happening.Happening, snapshot func(*sim.Snapshot)) {
	l.Happenings = append(l.Happenings, happened...)
	if tick%l.Every != 0 {
		return
	}
	var s sim.Snapshot
	snapshot(&s)
	l.Rows = append(l.Rows, rowOf(&s, l.cfg))
}

const degrees = 180 / math.Pi

func rowOf(s *sim.Snapshot, cfg *sim.Config) Row {
	b, c := &s.Air.Body, &cfg.Layout
	r := Row{
		Tick: s.Tick, Armed: s.Armed, Mode: s.Mode, Link: codes.Link(s.Link),
		North: b.Pos.X, East: b.Pos.Y, Height: -b.Pos.Z, Speed: math.Hypot(b.Vel.X, b.Vel.Y), Climb: -b.Vel.Z,
		Rate: degreesOf(b.Spin), Asked: degreesOf(s.Air.Asked.Rate),
		Throttle: micros(s, c.Throttle), Roll: micros(s, c.Roll), Fore: micros(s, c.Pitch), Turn: micros(s, c.Yaw),
		Volts: s.Volts, Used: b.Used / 3.6,
	}
	r.Bank, r.Pitch, r.Heading = Angles(b.Att)
	for i, m := range s.Motor {
		r.Motor[i] = float64(m) * 100 / flight.FullSpeed
	}
	return r
}

func micros(s *sim.Snapshot, channel int8) float64 { return float64(s.Received[channel]) / 8 }

func degreesOf(v vec.V) [3]float64 { return [3]float64{v.X * degrees, v.Y * degrees, v.Z * degrees} }

// Angles are bank to the right, pitch nose up and heading from north, in degrees: the usual yaw, pitch, roll order of
// flight mechanics.
func Angles(q vec.Q) (bank, pitch, heading float64) {
	nose, down := q.Turn(vec.V{X: 1}), q.Back(vec.V{Z: 1})
	bank = math.Atan2(down.Y, down.Z) * degrees
	pitch = math.Asin(min(max(-nose.Z, -1), 1)) * degrees
	heading = math.Atan2(nose.Y, nose.X) * degrees
	if heading < 0 {
		heading += 360
	}
	if heading >= 359.99995 { // what rounds to 360 is north
		heading = 0
	}
	return bank, pitch, heading
}

// Columns are the names of the table's columns, in order.
func Columns() []string {
	return []string{
		"t_s", "armed", "mode", "link", "north_m", "east_m", "height_m", "speed_ms", "climb_ms", "bank_deg", "pitch_deg", "heading_deg",
		"roll_rate_dps", "pitch_rate_dps", "yaw_rate_dps", "asked_roll_dps", "asked_pitch_dps", "asked_yaw_dps",
		"throttle_us", "roll_us", "pitch_us", "yaw_us",
		"front_left_pct", "front_right_pct", "rear_left_pct", "rear_right_pct", "volts", "used_mah",
	}
}

// WriteCSV writes the rows as a table (RFC 4180) with a line of names first.
func (l *Log) WriteCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	if err := out.Write(Columns()); err != nil {
		return err
	}
	var line []string
	for i := range l.Rows {
		r := &l.Rows[i]
		line = append(line[:0], strconv.FormatFloat(float64(r.Tick)/1000, 'f', 3, 64), yes(r.Armed), codes.Mode(r.Mode), r.Link)
		for _, v := range []float64{
			r.North, r.East, r.Height, r.Speed, r.Climb, r.Bank, r.Pitch, r.Heading, r.Rate[0], r.Rate[1], r.Rate[2],
			r.Asked[0], r.Asked[1], r.Asked[2], r.Throttle, r.Roll, r.Fore, r.Turn, r.Motor[0], r.Motor[1], r.Motor[2], r.Motor[3],
			r.Volts, r.Used,
		} {
			line = append(line, number(v))
		}
		if err := out.Write(line); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func yes(b bool) string {
	if b {
		return "1"
	}
	return "0"
}

// number writes v with at most four decimals, and nothing as 0.
func number(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e4)/1e4+0, 'f', -1, 64)
}
