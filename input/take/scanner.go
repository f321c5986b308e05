package take

import (
	"io"

	"propsoff.example/assets/words"
)

// One kill or full disk tears at most one write, and a power cut leaves zeros besides; so a broken end longer than
// tornMost that is not all zeros is damage, not a tear. Within it a whole record is searched for, at the cost of at most
// searchMost bytes of check sums.
const (
	tornMost   = 1 << 20
	searchMost = 64 << 20
)

// badRecord says that no whole record stands where one should.
type badRecord struct {
	torn bool
	what words.ID
}

// Problem says what stands there instead.
func (b *badRecord) Problem() *words.Problem { return words.Wrong(b.what) }

func (b *badRecord) Error() string { return b.Problem().Error() }

// scanner cuts a stream into records. It holds one record at a time.
type scanner struct {
	src  io.Reader
	buf  []byte
	lo   int   // buf[lo:] has not been passed yet
	off  int64 // the place of buf[lo] in the stream
	size int   // length of what next gave, passed by step
	end  bool  // src is at its end
	fail error // the error of src, other than its end
}

// ahead gives at least n bytes without passing them, fewer only at the end of the stream.
func (s *scanner) ahead(n int) ([]byte, error) {
	for empty := 0; len(s.buf)-s.lo < n && !s.end && s.fail == nil; {
		if s.lo > 0 && (s.lo == len(s.buf) || len(s.buf) == cap(s.buf)) {
			s.buf = s.buf[:copy(s.buf, s.buf[s.lo:])]
			s.lo = 0
		}
		if len(s.buf) == cap(s.buf) { // grows with what has come, never with what a length claims
			grown := make([]byte, len(s.buf), max(32<<10, 2*cap(s.buf)))
			copy(grown, s.buf)
			s.buf = grown
		}
		k, err := s.src.Read(s.buf[len(s.buf):cap(s.buf)])
		s.buf = s.buf[:len(s.buf)+k]
		switch {
		case err == io.EOF:
			s.end = true
		case err != nil:
			s.fail = err
		case k > 0:
			empty = 0
		default:
			if empty++; empty == 100 {
				s.fail = io.ErrNoProgress
			}
		}
	}
	if s.fail != nil && len(s.buf)-s.lo < n {
		return nil, s.fail
	}
	return s.buf[s.lo:], nil
}

// step passes what next gave.
func (s *scanner) step() {
	s.lo += s.size
	s.off += int64(s.size)
	s.size = 0
}

// next gives the record that stands here; its payload is valid until step. At the end it gives io.EOF, and where no
// whole record stands a *badRecord.
func (s *scanner) next() (kind byte, payload []byte, err error) {
	for want := 1; ; {
		b, err := s.ahead(want)
		if err != nil {
			return 0, nil, err
		}
		if len(b) == 0 {
			return 0, nil, io.EOF
		}
		kind, payload, size, what := record(b)
		switch {
		case what == foundWhole:
			s.size = size
			return kind, payload, nil
		case what == foundShort && !s.end:
			want = size
		default:
			bad, err := s.judge()
			if err != nil {
				return 0, nil, err
			}
			return 0, nil, bad
		}
	}
}

// judge tells a torn end from damage, after no whole record was found here.
func (s *scanner) judge() (*badRecord, error) {
	b, err := s.ahead(tornMost + 1)
	if err != nil {
		return nil, err
	}
	if len(b) > tornMost {
		return s.judgeLong()
	}
	damaged := &badRecord{what: "take.bad-sum"}
	for i, cost := 1, 0; i < len(b); i++ {
		if b[i] > recAdded { // only known kinds are a sign: any byte could be an unknown one
			continue
		}
		_, _, size, what := record(b[i:])
		if what == foundWhole {
			return damaged, nil
		}
		if what == foundBad {
			cost += size
		}
		if cost > searchMost {
			return &badRecord{what: "take.none-found"}, nil
		}
	}
	return &badRecord{torn: true, what: "take.last-cut"}, nil
}

// judgeLong looks at an end too long for a torn write: only zeros make it a torn one.
func (s *scanner) judgeLong() (*badRecord, error) {
	for {
		b, err := s.ahead(1)
		if err != nil {
			return nil, err
		}
		if len(b) == 0 {
			return &badRecord{torn: true, what: "take.zeros"}, nil
		}
		for _, c := range b {
			if c != 0 {
				return &badRecord{what: "take.none-far"}, nil
			}
		}
		s.lo = len(s.buf) // off stays: it says where the end began
	}
}
