package remembered

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/sim/prove"
)

// ProofsName is the name of the file with what searches came to, in the program's configuration folder.
const ProofsName = "searched.yaml"

// Proof is what a search of a layout came to.
type Proof struct {
	// Of is a digest of everything that the search depends on, in hexadecimal digits.
	Of string
	// Day is when it was searched, in days since 1970.
	Day int
	// Report has the outcome of each rule, and no ways: the next search finds them again.
	Report prove.Report
}

// The bounds of the file (ours): how many layouts, bytes, the length of a digest, how many situations.
const (
	mostProofs     = 24
	longestProofs  = 1 << 16
	digestLength   = 64
	mostSituations = min(1<<53, math.MaxInt) // a machine of 32 bits holds no more
	mostStanding   = 1e30
	whatProofs     = "searched 1"
	fieldProofs    = "layouts"
	fieldOf        = "digest"
	fieldPartial   = "stopped"
	fieldFound     = "situations"
	fieldStanding  = "standing-for"
)

// Proofs are what searches of layouts came to, the newest last. The zero value remembers until the program ends. It belongs to one goroutine.
type Proofs struct {
	All []Proof
	// Likes is what layouts were found to behave like, the newest last.
	Likes []Like
	kept
}

// OpenProofs reads what searches came to at a path, as Open does.
func OpenProofs(path string) *Proofs {
	p := &Proofs{kept: kept{path: path}}
	p.read(longestProofs, "searched-damaged", "remembered.proofs-damaged", func(data []byte) (err error) {
		p.All, p.Likes, err = ParseProofs(path, data)
		return err
	})
	return p
}

// Of is what the search of a layout came to; nil where none is known.
func (p *Proofs) Of(digest string) *Proof {
	if i := slices.IndexFunc(p.All, func(o Proof) bool { return o.Of == digest }); i >= 0 {
		return &p.All[i]
	}
	return nil
}

// Note notes what a search came to, in the place of what an earlier one of the same layout did; of too many layouts the oldest is forgotten.
func (p *Proofs) Note(n Proof) {
	n.Report.Results = slices.Clone(n.Report.Results)
	for i, r := range n.Report.Results {
		n.Report.Results[i] = prove.Result{Rule: r.Rule, Outcome: r.Outcome, Control: -1, Position: -1}
	}
	n.Report.Steps, n.Report.Bytes = 0, 0
	p.All = append(slices.DeleteFunc(p.All, func(o Proof) bool { return o.Of == n.Of }), n)
	if extra := len(p.All) - mostProofs; extra > 0 {
		p.All = slices.Delete(p.All, 0, extra)
	}
	p.write(p.Marshal())
}

// Marshal writes the file.
func (p *Proofs) Marshal() []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s: %s\n# What propsoff found when it searched layouts of switches. A layout that has changed since is not found here.\n%s:\n", fieldWhat, whatProofs, fieldProofs)
	for i := range p.All {
		o := &p.All[i]
		r := &o.Report
		fmt.Fprintf(&b, "  - %s: %s\n    %s: %d\n    %s: %d\n    %s: %s\n", fieldOf, yamldoc.Quote(o.Of), fieldDay, o.Day, fieldFound, r.Situations,
			fieldStanding, strconv.FormatFloat(r.Standing, 'f', -1, 64))
		if r.Partial {
			fmt.Fprintf(&b, "    %s: yes\n", fieldPartial)
		}
		for out := range prove.OutcomeCount {
			if all := rulesOf(r, out); len(all) > 0 && out != prove.Holds {
				fmt.Fprintf(&b, "    %s: [%s]\n", out.Code(), strings.Join(all, ", "))
			}
		}
	}
	p.likes(&b)
	return b.Bytes()
}

// rulesOf are the codes of the rules that came to an outcome.
func rulesOf(r *prove.Report, o prove.Outcome) (all []string) {
	for _, one := range r.Results {
		if one.Outcome == o {
			all = append(all, one.Rule.Code())
		}
	}
	return all
}

// ParseProofs reads the file. All that is wrong comes in one error (words.Problems), and then nothing is known.
func ParseProofs(name string, data []byte) (all []Proof, likes []Like, err error) {
	doc, err := yamldoc.Parse(name, data)
	if err != nil {
		return nil, nil, err
	}
	m := doc.Root().Map("remembered.proofs")
	isFile(m, whatProofs)
	if n, ok := m.Field(fieldProofs); ok && !n.IsEmpty() {
		list, _ := n.ListOf(0, mostProofs)
		for _, one := range list {
			all = append(all, parseProof(one.Map("remembered.proof")))
		}
	}
	if n, ok := m.Field(fieldLikes); ok {
		list, _ := n.ListOf(0, mostLikes)
		for _, one := range list {
			likes = append(likes, parseLike(one.Map("remembered.like")))
		}
	}
	m.Done()
	if err := doc.Err(); err != nil {
		return nil, nil, err
	}
	return all, likes, nil
}

func parseProof(m *yamldoc.Map) (p Proof) {
	p.Of = parseDigest(m)
	p.Day, _ = m.Need(fieldDay).Int(0, mostDay)
	found, _ := m.Need(fieldFound).Int(0, mostSituations)
	p.Report.Situations = uint64(found)
	p.Report.Standing, _ = m.Need(fieldStanding).Number(0, mostStanding)
	stopped, _ := m.Opt(fieldPartial).Word("yes", "no")
	p.Report.Partial = stopped == "yes"
	for r := range prove.RuleCount {
		p.Report.Results = append(p.Report.Results, prove.Result{Rule: r, Outcome: prove.Holds, Control: -1, Position: -1})
	}
	for out := range prove.OutcomeCount {
		n, ok := m.Field(out.Code())
		if !ok || out == prove.Holds {
			continue
		}
		rules, _ := n.ListOf(0, int(prove.RuleCount))
		for _, one := range rules {
			code, _ := one.Text()
			r := ruleOf(code)
			if r == prove.RuleCount || p.Report.Results[r].Outcome != prove.Holds {
				one.Wrong("remembered.no-rule", words.Args{"text": words.Typed(code)})
				continue
			}
			p.Report.Results[r].Outcome = out
		}
	}
	m.Done()
	return p
}

// isDigest tells whether a text can be one.
func isDigest(t string) bool {
	return len(t) == digestLength && strings.Trim(t, "0123456789abcdef") == ""
}

// ruleOf is the rule of a code, RuleCount for none.
func ruleOf(code string) prove.Rule {
	for r := range prove.RuleCount {
		if r.Code() == code {
			return r
		}
	}
	return prove.RuleCount
}
