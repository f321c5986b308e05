package take

import (
	"errors"
	"io"
	"syscall"

	"propsoff.example/assets/words"
)

// file is what an output needs of an open file; os.File has it.
type file interface {
	io.Writer
	Truncate(size int64) error
	Sync() error
	Close() error
}

// output is one file of a take. Errors stick.
type output struct {
	path string
	f    file
	err  error
	size int64 // bytes written, all of them whole records
	from int64 // tick at which it begins
	done int64 // tick of the last entry written
}

func (o *output) name() string { return o.path }

// write hands b, whole records, to the file. If only a part went through, the part is cut off again.
func (o *output) write(b []byte, tick int64, _ bool) error {
	if o.err != nil {
		return o.err
	}
	if tick-o.from > LongestTicks {
		_, _ = o.f.Write(appendRecord(nil, recEnd, []byte{0}))
		o.err = words.Wrong("take.recording-day", words.Args{"time": clock(o.done)}).In(o.path)
		return o.err
	}
	n, err := o.f.Write(b)
	if err == nil && n < len(b) {
		err = io.ErrShortWrite
	}
	if err == nil {
		o.size += int64(n)
		o.done = tick
		return nil
	}
	if n > 0 {
		o.f.Truncate(o.size) // where this fails too the reader finds the torn record by its check
	}
	full, why := words.Flag(errors.Is(err, syscall.ENOSPC)), words.Error(err)
	if o.size == 0 {
		o.err = words.Wrong("take.nothing-recorded", words.Args{"full": full, "why": why}).In(o.path).Because(err)
	} else {
		o.err = words.Wrong("take.recording-ends", words.Args{"full": full, "time": clock(o.done), "why": why}).In(o.path).Because(err)
	}
	return o.err
}

func (o *output) sync() error {
	if err := o.f.Sync(); err != nil && o.err == nil {
		o.err = words.Within(o.path, err)
	}
	return o.err
}

// close marks the clean end, waits for the disk and closes the file.
func (o *output) close() error {
	if o.f == nil {
		return o.err
	}
	if o.write(appendRecord(nil, recEnd, []byte{0}), o.done, false) == nil {
		if err := o.f.Sync(); err != nil && !errors.Is(err, syscall.EINVAL) { // EINVAL: nothing to wait for there
			o.err = words.Within(o.path, err)
		}
	}
	if err := o.f.Close(); err != nil && o.err == nil {
		o.err = words.Within(o.path, err)
	}
	o.f = nil
	return o.err
}
