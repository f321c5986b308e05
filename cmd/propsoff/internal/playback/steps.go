package playback

import (
	"cmp"
	"context"
	"errors"

	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/takes"
	"propsoff.example/input"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// Fast runs a plan without waiting for the clock.
func Fast(ctx context.Context, p *Plan, r *Report, rec *takes.Recorder) error {
	pr, err := Through(ctx, p, rec, nil, r.Observe)
	switch {
	case errors.Is(err, exit.ErrStopped):
		r.Stopped(pr.Tick() - 1)
		return err
	case pr == nil:
		return err
	}
	// A recording that was not kept counts for more than what the run came to, which is told all the same.
	return cmp.Or(err, r.Finish(pr.Tick()-1, pr.Digest()))
}

// Through steps a practice through a plan to its end, without waiting for the clock. before are readings for the first tick that
// come before the plan's own; seen is called after every tick. The take is ended, however the run ends. Stopped by a signal it gives the practice
// too; any other error beside a practice is about the take alone.
func Through(ctx context.Context, p *Plan, rec *takes.Recorder, before []pulse.Reading, seen func(*practice.Practice)) (*practice.Practice, error) {
	pr := practice.Begin(p.Start.Craft, p.Start.Tick, p.Start.Stands)
	readings := append([]pulse.Reading(nil), before...)
	from := p.Start.Tick
	ends := func() { // notes how a part ends, where it had a tick
		if rec != nil && pr.Tick() > from {
			_ = rec.Digest(pr.Tick()-1, pr.Digest())
		}
	}
	var end error
	for end == nil {
		if pr.Tick()%4096 == 0 && ctx.Err() != nil {
			end = ctx.Err()
			break
		}
		readings, end = p.Source.Poll(readings, pr.Tick()*1000)
		if start, ok := p.nextPart(pr.Tick()); ok {
			ends()
			if rec != nil {
				_ = rec.Part(start)
			}
			from = start.Tick
			p.kept.Forget()
			pr, end = practice.Begin(start.Craft, start.Tick, start.Stands), nil
			continue
		}
		p.kept.Before(pr, readings)
		pr.Step(readings)
		RecordTick(rec, pr, readings)
		seen(pr)
		readings = readings[:0]
	}
	ends()
	var unkept error
	if rec != nil {
		unkept = rec.Close()
	}
	switch {
	case errors.Is(end, input.ErrEnd):
		return pr, exit.Trouble(unkept)
	case errors.Is(end, context.Canceled) && unkept == nil:
		return pr, exit.Trouble(exit.ErrStopped)
	case errors.Is(end, context.Canceled):
		return pr, exit.Trouble(errors.Join(unkept, exit.ErrStopped))
	}
	return nil, exit.BadInput(end)
}

// nextPart is the part of a take that begins at a tick.
func (p *Plan) nextPart(tick int64) (*live.Start, bool) {
	if p.parts == nil {
		return nil, false
	}
	return p.parts.Part(tick * 1000)
}

// RecordTick notes the tick that pr has just run, with its readings, in a take; nil for none. Its errors stick and are told at the end.
func RecordTick(rec *takes.Recorder, pr *practice.Practice, readings []pulse.Reading) {
	if rec == nil {
		return
	}
	tick := pr.Tick() - 1
	for _, x := range readings {
		_ = rec.Reading(tick, x)
	}
	for _, h := range pr.Happenings() {
		_ = rec.Happening(h.Tick, uint8(h.Code), h.A, h.B)
	}
	if tick%1000 == 999 {
		_ = rec.Digest(tick, pr.Digest())
	}
}
