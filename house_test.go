package propsoff_test

import (
	"cmp"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const module = "propsoff.example/"

// room is one package as the house test sees it.
type room struct {
	path    string // from the module's root, "." for the root
	doc     string
	imports map[string][]string // import path → files that have it (tests left out)
	files   map[string]int      // lines of each file
	names   map[string]*ast.File
	set     *token.FileSet
}

func (r *room) line(at token.Pos) int { return r.set.Position(at).Line }

// rooms reads every package of the module, tests left out.
func rooms(t *testing.T) map[string]*room {
	out := map[string]*room{}
	fset := token.NewFileSet()
	err := filepath.WalkDir(".", func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (d.Name() == "testdata" || strings.HasPrefix(d.Name(), ".") && p != ".") {
			return filepath.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(p, ".go") || strings.HasSuffix(p, "_test.go") {
			return nil
		}
		text, err := os.ReadFile(p)
		if err != nil {
			return err
		}
		f, err := parser.ParseFile(fset, p, text, parser.ParseComments)
		if err != nil {
			return err
		}
		dir := filepath.ToSlash(filepath.Dir(p))
		r := out[dir]
		if r == nil {
			r = &room{path: dir, imports: map[string][]string{}, files: map[string]int{}, names: map[string]*ast.File{}, set: fset}
			out[dir] = r
		}
		r.files[p] = strings.Count(string(text), "\n")
		r.names[p] = f
		if f.Doc != nil && r.doc == "" {
			r.doc = f.Doc.Text()
		}
		for _, i := range f.Imports {
			path, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				return err
			}
			r.imports[path] = append(r.imports[path], p)
		}
		return nil
	})
	require.NoError(t, err)
	require.Greater(t, len(out), 15, "the walk found hardly anything: is the test run from the module's root?")
	return out
}

// stepped are the packages that run inside one millisecond of the bench: no clock, no input or output, no randomness.
var stepped = []string{
	"sim/pulse", "sim/happening", "sim/vec", "sim/link", "sim/layout", "sim/arming", "sim/flight", "sim/body", "sim", "sim/fault",
	"sim/practice", "sim/drill", "gestures", "gestures/menu", "sim/chance", "sim/transit", "sim/wind", "sim/mark",
}

// plainLibrary is what a stepped package may use of the standard library.
var plainLibrary = []string{"math", "math/bits", "errors", "strconv", "cmp", "slices"}

func TestSteppedPackagesAreHeadless(t *testing.T) {
	all := rooms(t)
	seen := 0
	for _, name := range stepped {
		r := all[name]
		if r == nil {
			continue // rooms that are still to be built
		}
		seen++
		for path, files := range r.imports {
			own := strings.HasPrefix(path, module) && slices.Contains(stepped, strings.TrimPrefix(path, module))
			assert.True(t, own || path == "propsoff.example/sim" || slices.Contains(plainLibrary, path), "%s imports %s (%v)", name, path, files)
		}
		for file, f := range r.names {
			for _, d := range f.Decls {
				g, ok := d.(*ast.GenDecl)
				if !ok || g.Tok != token.VAR {
					continue
				}
				for _, s := range g.Specs {
					for _, id := range s.(*ast.ValueSpec).Names {
						assert.Equal(t, "_", id.Name, "%s: a stepped package has no package variable", file)
					}
				}
			}
		}
	}
	assert.GreaterOrEqual(t, seen, 8)
}

func TestOneDoorToEachThing(t *testing.T) {
	engine := func(p string) bool { return strings.HasPrefix(p, "github.com/hajimehoshi/ebiten") }
	device := func(p string) bool {
		return p == "github.com/0xcafed00d/joystick" || strings.HasPrefix(p, "golang.org/x/sys")
	}
	engines, devices := 0, 0
	for name, r := range rooms(t) {
		for path, files := range r.imports {
			if engine(path) {
				engines++
				assert.Equal(t, "cmd/propsoff/internal/window", name, "only the window imports the engine: %v", files)
			}
			if device(path) && !strings.HasPrefix(name, "scripts/") {
				devices++
				clock := name == "cmd/propsoff/internal/live" && strings.HasPrefix(path, "golang.org/x/sys")           // it asks the time that counts sleep
				stop := name == "cmd/propsoff/internal/console" && strings.HasPrefix(path, "golang.org/x/sys")         // it asks who could have a stopped program go on
				asks := name == "cmd/propsoff/internal/comfort" && strings.HasPrefix(path, "golang.org/x/sys/windows") // it asks what is set for every program
				assert.True(t, name == "input/usb" || clock || stop || asks, "only usb touches a device: %s in %v", path, files)
			}
			assert.NotContains(t, []string{"util", "common", "helpers", "misc"}, filepath.Base(path), "%s imports %s", name, path)
		}
	}
	assert.NotZero(t, engines)
	assert.NotZero(t, devices)
}

// Every file goes in and out by assets/door, which refuses what waits for ever, and writes over nothing that it was not told to: nobody else
// opens, makes or moves a file. Devices are opened in input/usb.
func TestOneDoorForEveryFile(t *testing.T) {
	shut := []string{"Open", "OpenFile", "OpenInRoot", "OpenRoot", "Create", "CreateTemp", "ReadFile", "WriteFile", "Rename", "Link", "Symlink"}
	// Taking away is no writing: of what was made a moment ago, of a logbook that is to be forgotten, of what a kill has left.
	removes := []string{"assets/door", "input/take", "cmd/propsoff/internal/logbook"}
	seen := 0
	for name, r := range rooms(t) {
		if name == "assets/door" || name == "input/usb" || slices.Contains(forTests, name) && name != "cmd/propsoff/internal/savers" || // they are tests' own
			strings.HasPrefix(name, "scripts/") {
			continue
		}
		for file, f := range r.names {
			ast.Inspect(f, func(n ast.Node) bool {
				s, ok := n.(*ast.SelectorExpr)
				if !ok {
					return true
				}
				of, ok := s.X.(*ast.Ident)
				if !ok || of.Name != "os" {
					return true
				}
				seen++
				assert.NotContains(t, shut, s.Sel.Name, "%s: os.%s goes round the door", file, s.Sel.Name)
				if s.Sel.Name == "Remove" || s.Sel.Name == "RemoveAll" || s.Sel.Name == "Truncate" {
					assert.Contains(t, removes, name, "%s: os.%s", file, s.Sel.Name)
				}
				return true
			})
			assert.NotContains(t, r.imports, "io/ioutil")
		}
	}
	assert.Greater(t, seen, 20)
}

// Of a layout there is one verdict, one set of callouts and one answer to a silent radio: no other package of the program asks for them
// by itself, and none works out from stored values what they do.
func TestFactsAreWorkedOutOnce(t *testing.T) {
	only := map[string][]string{
		"prove.Search":            {"cmd/propsoff/internal/facts"},
		"prove.Compare":           {"cmd/propsoff/internal/facts"},
		"radioreach.Ideal":        {"cmd/propsoff/internal/facts"},
		"radioreach.IdealForBoth": {"cmd/propsoff/internal/facts"},
		"radioreach.Handset":      {"cmd/propsoff/internal/facts", "cmd/propsoff/internal/live/whodrives"},
		"switches.Look":           {"cmd/propsoff/internal/facts", "cmd/propsoff/internal/ui/card"}, // the card looks at single controls
		"link.ValidFrame":         {"cmd/propsoff/internal/facts"},
	}
	met := map[string]int{}
	for name, r := range rooms(t) {
		if !strings.HasPrefix(name, "cmd/") {
			continue
		}
		for file, f := range r.names {
			ast.Inspect(f, func(n ast.Node) bool {
				if s, ok := n.(*ast.SelectorExpr); ok {
					if x, ok := s.X.(*ast.Ident); ok {
						if rooms, ours := only[x.Name+"."+s.Sel.Name]; ours {
							met[x.Name+"."+s.Sel.Name]++
							assert.Contains(t, rooms, name, "%s asks %s.%s: take it from facts", file, x.Name, s.Sel.Name)
						}
					}
				}
				return true
			})
		}
	}
	assert.Len(t, met, len(only), "each is asked somewhere")
}

// What a person reads of link and arming comes from facts: whoever makes sentences, sheets, drills, reports or JSON of it has no business
// with their rules, nor with the step of a slot.
func TestSheetsTakeTheirFactsFromOnePlace(t *testing.T) {
	all := rooms(t)
	for _, name := range []string{"", "/internal/tell", "/internal/ui", "/internal/ui/figure", "/internal/ui/screen", "/internal/terminal", "/internal/report", "/internal/drillrun", "/internal/logbook", "/internal/termlive", "/internal/playback"} {
		r := all["cmd/propsoff"+name]
		if !assert.NotNil(t, r, name) {
			continue
		}
		for _, rule := range []string{"propsoff.example/sim/link", "propsoff.example/sim/arming"} {
			assert.Empty(t, r.imports[rule], "cmd/propsoff%s imports %s: take it from facts", name, rule)
		}
		for file, f := range r.names {
			ast.Inspect(f, func(n ast.Node) bool {
				if s, ok := n.(*ast.SelectorExpr); ok {
					assert.NotContains(t, []string{"StepSlot", "Conditions", "SlotFacts"}, s.Sel.Name, "%s works a slot out by itself", file)
				}
				return true
			})
		}
	}
	for path := range all["cmd/propsoff/internal/facts"].imports {
		for _, never := range []string{"tell", "ui", "terminal", "report", "live", "live/whodrives", "drillrun", "termlive", "ink", "window"} {
			assert.NotEqual(t, "propsoff.example/cmd/propsoff/internal/"+never, path, "facts know nothing of who shows them")
		}
	}
}

// job is a package's one job, as its doc must begin.
var job = map[string]string{
	"sim/pulse":                             "holds the words shared by input and bench: pulse width, frame of 16 channels, one time-stamped reading",
	"sim/happening":                         "holds one line of the record: tick, code, numbers",
	"sim/link":                              "says what the receiver hands on, and when the link counts as lost or clean",
	"sim/layout":                            "says in which span each channel stands, and how far from its edge",
	"sim/arming":                            "decides armed or not, and every reason why not",
	"sim/vec":                               "holds the vector and quaternion arithmetic of the craft: the same bits on every machine",
	"sim/chance":                            "gives numbers that look like chance and follow from a seed and a counter alone: the same on every machine",
	"sim/transit":                           "is what the air does to the radio's frames on their way: they come late, unevenly late, or not at all",
	"sim/wind":                              "is the wind at the craft: none, a breeze, or gusts by the published spectra",
	"sim/body":                              "a rigid body with four motors obeys physics for one step",
	"sim/flight":                            "goes from sticks and attitude to motor commands: angle, horizon, rate and air mode",
	"sim":                                   "is the bench: it wires the parts in fixed order for one millisecond",
	"sim/lesson":                            "finds until when a craft that broke could have been saved: it flies the last seconds again with other hands",
	"sim/hover":                             "puts a craft into a hover high up, by its model, and lets its radio fall silent",
	"sim/stop":                              "flies on from a moment of flight as a hand answers an alarm so many ms later, and looks how far the craft still goes",
	"sim/lossmap":                           "works out what comes of a craft whose radio falls silent, over height, climb, throttle and wind",
	"sim/practice":                          "is one practice: readings in, bench and gestures stepped, one snapshot out, digest kept",
	"sim/craftfile":                         "is the craft file",
	"sim/mark":                              "a mark that wanders without a pattern, and where one stick leads an ideal craft after it",
	"sim/hand":                              "a hand's delay, its crossover and its noise, from a record of what it was shown and what it did",
	"sim/drill":                             "cue, what must follow, what must not; verdicts; which drill is next",
	"sim/drill/drillfile":                   "is the drill file and the course file: a drill as data, read strictly from YAML",
	"sim/handset":                           "says what a radio's controls can send: each control's positions, travel and noise in pulse widths",
	"sim/prove":                             "searches every reachable situation of a layout and gives the shortest way to a broken rule",
	"sim/prove/explore":                     "walks every situation of any problem, nearest first, and gives the shortest way to each",
	"sim/switches":                          "says what the craft does at each position of each switch, how near the next edge is, and what to call out",
	"sim/mend":                              "finds the smallest changes of craft and radio after which every rule of a layout holds",
	"sim/examine":                           "makes pairs of situations of a layout that differ in one thing, for a pupil to foresee how each ends",
	"cmd/propsoff/internal/wayplay":         "plays a way on a bench of its own, beside whatever else is practised: as far as it is asked to, and again from the beginning",
	"cmd/propsoff/internal/ui/foresee":      "is one sheet: the examiner: two situations that differ in one thing, how each ends, and which beliefs were wrong",
	"cmd/propsoff/internal/radioreach":      "puts a radio file and a craft file together: what this radio can send to this craft",
	"cmd/propsoff/internal/facts":           "says what may be said of the present situation",
	"cmd/propsoff/internal/tworadios":       "searches what the hands on a pupil's and on an instructor's radio can bring about together",
	"cmd/propsoff/internal/provescript":     "writes the way to a broken rule as a pilot script",
	"cmd/propsoff/internal/lossplot":        "draws where a lost link leads: a map over height and climb, at one throttle in one wind",
	"cmd/propsoff/internal/lossrun":         "measures what a craft does from the radio's last frame on, and what it takes to arm it again",
	"gestures":                              "follows two-stick patterns: how far along, what is missing, fired or near miss",
	"gestures/menu":                         "is a tree of items moved through by sticks",
	"gestures/patternfile":                  "is gesture and menu files",
	"sim/fault":                             "bends readings and bench inputs as an instructor asks",
	"input/pair":                            "makes one source of a pupil's radio and an instructor's, who can take the sticks and disarm",
	"cmd/propsoff/internal/pupils":          "gives the course of drills that is practised, and keeps in the logbook what who practises it did",
	"cmd/propsoff/internal/drillrun":        "runs drills on a practice: it does what the drill asks of the bench and keeps what came of it",
	"input":                                 "says what a device is and what a source is",
	"input/usb":                             "the radio on the USB port: Linux events at full resolution, the portable library elsewhere",
	"input/radio":                           "raw axes and buttons to microseconds by what was learned; the radio file",
	"input/learn":                           "asks for one movement at a time, finds which control it was",
	"input/check":                           "looks at each learned control as it is taken to both ends and back, full and free, and says what passes, warns and fails",
	"input/keyboard":                        "keys as two sticks and switches",
	"input/script":                          "a pilot written down, playing as a source, with expectations",
	"input/take":                            "a recording that survives a kill: append, read, repair",
	"input/inputtest":                       "fake radios with noise and faults, and the one test that every source must pass",
	"assets":                                "holds what ships with the program: crafts, drills, gestures, menus, scripts, words, text face",
	"assets/door":                           "is the one way in and out for files",
	"assets/icon":                           "is the picture that stands for the program, drawn once and kept in the sizes that systems ask for",
	"assets/licences":                       "carries the licence of the program, and the texts that are due for whatever of others this build holds",
	"assets/mouth":                          "lets text from outside be seen, and steer nothing",
	"assets/page":                           "renders the page that brings the program into a browser",
	"assets/tidylater":                      "puts off the first collection of garbage",
	"assets/yamldoc":                        "strict YAML: `file:line:col: what, and what to do`, near names, limits on size and aliases",
	"cmd/propsoff":                          "commands and wiring",
	"cmd/propsoff/internal/takes":           "what a take keeps of craft, radio and gestures, and how a take of any model is played and told",
	"cmd/propsoff/internal/live":            "keeps a practice abreast of real time",
	"cmd/propsoff/internal/threemodes":      "flies three crafts beside the pilot's own, each in a flight mode of its own, so that the modes can be compared",
	"cmd/propsoff/internal/world":           "is everything outside the program that a command touches: the terminal, the files that a person names, radios, the clock",
	"cmd/propsoff/internal/exit":            "says with which status a command ends, and why",
	"cmd/propsoff/internal/playback":        "runs a pilot script or a take: what is to be run, step by step to its end, and what it is held against",
	"cmd/propsoff/internal/termlive":        "is what goes on live in the terminal: a practice is watched or played, drills are run, a radio is learned or checked",
	"cmd/propsoff/internal/logbook":         "the pupil's append-only record",
	"cmd/propsoff/internal/report":          "the pupil's one-page report, on paper and as HTML",
	"cmd/propsoff/internal/paper":           "a page as PDF, SVG and PNG",
	"cmd/propsoff/internal/breath":          "lets a browser do its part while something long is worked out",
	"cmd/propsoff/internal/pageside":        "is the program's side of the page that it stands in: what the page tells it, and what it tells the page",
	"cmd/propsoff/internal/presses":         "puts in order what an engine knows of keys, mouse and fingers at one picture",
	"cmd/propsoff/internal/ui":              "says what a sheet is, and holds the parts that all sheets share",
	"cmd/propsoff/internal/view":            "turns places in the world into places on a page: a pinhole camera, and lines and outlines cut at the edge of its picture",
	"cmd/propsoff/internal/ui/figure":       "draws what several sheets show",
	"cmd/propsoff/internal/ui/handheld":     "draws a plain hand-held radio, with each control where it sits on it",
	"cmd/propsoff/internal/ui/screen":       "decides which sheet is shown and what each key does",
	"cmd/propsoff/internal/ui/house":        "is the window's program with every sheet in it",
	"cmd/propsoff/internal/ui/start":        "is one sheet: what a person wants to do, as four doors, and what is behind each",
	"cmd/propsoff/internal/ui/uitest":       "is what the tests of sheets share",
	"cmd/propsoff/internal/tell":            "says facts: for a code of package facts, with its values, it names the message that fits",
	"cmd/propsoff/internal/lookup":          "makes the tables that a person looks things up in, from what the program itself goes by",
	"cmd/propsoff/internal/belongings":      "puts a file that a person gives where it belongs, renames and deletes what is kept, and packs all of it",
	"cmd/propsoff/internal/codes":           "names things by code words, which are the same in every language",
	"cmd/propsoff/internal/remembered":      "holds what the program remembers from one start to the next",
	"cmd/propsoff/internal/scancode":        "draws a text as a code that a phone reads",
	"cmd/propsoff/internal/serve":           "gives the files of the page to a browser, and nothing else",
	"cmd/propsoff/internal/ui/ask":          "is one sheet: a question that stands over whatever is open, and its answers",
	"cmd/propsoff/internal/ui/bench":        "is one sheet: the bench: the craft armed and disarmed, on the desk and in the air",
	"cmd/propsoff/internal/ui/learn":        "is one sheet: learning a radio, and choosing between radio files",
	"cmd/propsoff/internal/ui/seats":        "is one sheet: where each control sits on the radio",
	"cmd/propsoff/internal/ui/help":         "is one sheet: all keys, and the cautions",
	"cmd/propsoff/internal/ui/check":        "is one sheet: the controls check",
	"cmd/propsoff/internal/ui/layout":       "is the sheet of the switch layout",
	"cmd/propsoff/internal/ui/prove":        "is the sheet of the search",
	"cmd/propsoff/internal/ui/card":         "is one sheet: the switch card",
	"cmd/propsoff/internal/ui/first":        "is one sheet: what comes before the first flight",
	"cmd/propsoff/internal/ui/three":        "is one sheet: three crafts side by side, one in each mode",
	"cmd/propsoff/internal/ui/gestures":     "is one sheet: two-stick gestures and the menus that they open",
	"cmd/propsoff/internal/ui/loss":         "is one sheet: three receivers side by side on a lost link",
	"cmd/propsoff/internal/ui/drills":       "is one sheet: the course of drills, and a drill that runs",
	"cmd/propsoff/internal/ui/desk":         "is one sheet: the instructor's desk",
	"cmd/propsoff/internal/ui/write":        "is one sheet: text that is typed, by keys or on a board of letters",
	"cmd/propsoff/internal/ui/people":       "is one sheet: who practises",
	"cmd/propsoff/internal/ui/files":        "is one sheet: the files that are kept: a craft of them flown, one renamed or deleted",
	"cmd/propsoff/internal/ink":             "a page as lines, shapes and measured text in a theme",
	"cmd/propsoff/internal/window":          "Ebitengine: shows a page, passes keys on",
	"cmd/propsoff/internal/live/whichradio": "says which radio is read, and which radio file applies to it",
	"cmd/propsoff/internal/live/whodrives":  "decides who drives the bench: a radio with its radio file, the keyboard, the demo pilot, or a script",
	"cmd/propsoff/internal/comfort":         "knows what a person has asked of every program on the system: less motion, more contrast, larger text, a dark ground",
	"cmd/propsoff/internal/spoken":          "turns what the bench and a drill do into sentences to be heard: one for each change, none while nothing changes",
	"cmd/propsoff/internal/sound":           "holds the short tones of this program: which happening has which, how each is built, and which are off",
	"cmd/propsoff/internal/console":         "is the terminal as this program changes it",
	"cmd/propsoff/internal/terminal":        "the same facts as text, tables, JSON Lines",
	"cmd/propsoff/internal/savers":          "does what the program's window and a radio that is plugged in have the program read and write",
	"assets/face":                           "is the text face that propsoff ships",
	"assets/words":                          "holds every sentence that a person reads, as data by language, and says them",
	"assets/words/wordstest":                "asks of errors and texts, in tests, that every language says them, and that no message of a room is left untried",
	"cmd/propsoff/internal/engineaxes":      "fills in the axes that the portable library cannot see, from the engine's gamepad reading",
	"cmd/propsoff/internal/flightlog":       "is one flight as rows",
	"cmd/propsoff/internal/ink/mesh":        "turns a page into triangles with soft edges, characters included",
	"cmd/propsoff/internal/ink/raster":      "is a page as a picture, drawn without a graphics card",
	"scripts/attack":                        "tries to break the program from outside",
	"scripts/attack/child":                  "runs one program under limits, and says how it ended and what it took",
	"scripts/attack/hostile":                "makes inputs that mean harm",
	"scripts/attack/inputs":                 "attacks every command with hostile inputs, outputs, flags and names, and judges what it does",
	"scripts/attack/kills":                  "kills whatever writes, at any moment, and has several writers save one thing at once, and looks whether anything that was acknowledged is lost",
	"scripts/attack/tally":                  "counts what an attack tried and what failed, by kind, with an example of each",
	"scripts/browser":                       "drives a headless Chromium from tests: pages, keys, pointers, fingers, pictures",
	"scripts/browser/onfloor":               "runs a package's own tests, compiled for a browser, on the page's file layer",
	"scripts/webpage":                       "renders the page into a folder",
	"scripts/covered":                       "asks a coverage profile whether what must be walked was walked",
	"scripts/measure":                       "writes the figures of docs/measured.md and of the README",
	"scripts/mutants":                       "breaks one rule of arming or link at a time, by one line in a copy, and runs the named test, and prove over a few layouts",
	"scripts/packaging/licences":            "writes the licence texts of every build into assets/licences",
	"scripts/packaging/packages":            "puts what scripts/package has built into packages, the same bytes each time",
	"scripts/packaging/resources":           "writes what Windows shows of the program: its icon, and its name, version and licence",
	"scripts/packaging/terms":               "gathers the licence texts that are due for a build",
	"scripts/newlanguage":                   "writes the folder of a language that the program is to learn",
	"scripts/rig":                           "is the virtual radio rig",
	"scripts/rig/fakeradio":                 "makes radios for the rig",
	"scripts/rig/hand":                      "moves the controls of a made radio as a person does",
	"scripts/rig/initrd":                    "packs the guest's first file system",
	"scripts/rig/kernelrule":                "says what Linux makes of an axis before a program sees it",
	"scripts/statespace":                    "has prove and spin, a general-purpose explicit-state model checker, search the same crafts, and prints how much processor time each of them takes, and the ratio",
}

func TestEachPackageSaysItsOneJob(t *testing.T) {
	space := regexp.MustCompile(`\s+`)
	all := rooms(t)
	for name, want := range job {
		r := all[name]
		if !assert.NotNil(t, r, "%s is gone: take it out of the table job in house_test.go", name) {
			continue
		}
		doc := space.ReplaceAllString(r.doc, " ")
		at := strings.Index(strings.ToLower(doc), strings.ToLower(want))
		assert.True(t, at >= 0 && (at < 60 || strings.HasPrefix(doc, "Command ")), "the doc of %s must begin with its one job:\n want %s\n have %.120s", name, want, doc)
	}
}

// roomRow is a row of the table of rooms in DEVELOPERS.md: packages of one folder's, and in brackets those within it.
var roomRow = regexp.MustCompile(`^\| ([^|]+?)(?: \(([^|)]+)\))? \|`)

// Every package stands in the table job, and has its row among the rooms of DEVELOPERS.md.
func TestEachPackageIsOnTheMap(t *testing.T) {
	text, err := os.ReadFile("DEVELOPERS.md")
	require.NoError(t, err)
	_, table, _ := strings.Cut(string(text), "\n## Rooms\n")
	table, _, _ = strings.Cut(table, "\n## ")
	rows := map[string]bool{}
	for line := range strings.Lines(table) {
		cells := roomRow.FindStringSubmatch(line)
		if cells == nil {
			continue
		}
		for one := range strings.SplitSeq(cells[1], ", ") {
			rows[strings.Replace(one, "…/", "cmd/propsoff/", 1)] = true
		}
		for within := range strings.SplitSeq(cells[2], ", ") {
			rows[strings.Replace(cells[1], "…/", "cmd/propsoff/", 1)+"/"+within] = true
		}
	}
	for name := range rooms(t) {
		assert.NotEmpty(t, job[name], "%s has no line in the table job in house_test.go: its one job, as its doc begins", name)
		assert.True(t, rows[name], "%s has no row in the table of rooms in DEVELOPERS.md", name)
	}
}

// drawnBy is what the tests of a sheet call to have its scenes drawn at every size, where that is not uitest.InEveryScene: these look at a
// page in ways of their own. The list may only shrink.
var drawnBy = map[string]string{"card": "PartsAlone", "help": "Check", "layout": "Check", "learn": "Check", "prove": "Everywhere"}

// Every package of a sheet has its scenes drawn at every size, in every language, and for a class.
func TestEachSheetIsDrawnInEveryScene(t *testing.T) {
	sheets := 0
	for name, r := range rooms(t) {
		dir, ok := strings.CutPrefix(name, "cmd/propsoff/internal/ui/")
		if !ok || !slices.ContainsFunc(slices.Collect(maps.Values(r.names)), hasAbout) {
			continue
		}
		sheets++
		tests, err := filepath.Glob(name + "/*_test.go")
		require.NoError(t, err)
		called := map[string]bool{}
		for _, file := range tests {
			f, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
			require.NoError(t, err)
			ast.Inspect(f, func(n ast.Node) bool {
				if c, ok := n.(*ast.CallExpr); ok {
					if s, ok := c.Fun.(*ast.SelectorExpr); ok {
						called[s.Sel.Name] = true
					}
				}
				return true
			})
		}
		assert.True(t, called[cmp.Or(drawnBy[dir], "InEveryScene")], "no test of %s calls uitest.%s", name, cmp.Or(drawnBy[dir], "InEveryScene"))
		assert.False(t, drawnBy[dir] != "" && called["InEveryScene"], "%s calls uitest.InEveryScene now: take it out of drawnBy", name)
	}
	assert.Greater(t, sheets, 10)
}

// hasAbout tells whether a file says what there is to know of a sheet.
func hasAbout(f *ast.File) bool {
	return slices.ContainsFunc(f.Decls, func(d ast.Decl) bool {
		fn, ok := d.(*ast.FuncDecl)
		return ok && fn.Recv == nil && fn.Name.Name == "About"
	})
}

// long are the files of over 400 lines and the functions of over 80 that are still to be split, tests left out. The list may only shrink.
var long []string

func TestFilesAndFunctionsCanBeReadInOneSitting(t *testing.T) {
	var found []string
	for name, r := range rooms(t) {
		for file, lines := range r.files {
			if lines > 400 {
				found = append(found, name+" "+filepath.Base(file))
			}
			for _, d := range r.names[file].Decls {
				if f, ok := d.(*ast.FuncDecl); ok && r.line(f.End())-r.line(f.Pos()) >= 80 {
					found = append(found, name+" "+f.Name.Name)
				}
			}
		}
	}
	slices.Sort(found)
	assert.Equal(t, long, found, "the first is the list, the second what is long: split it by idea, and take out of the list what is short now")
}

// No sentence for a person inside sim: codes and numbers there, sentences at the edge.
func TestNoSentenceInsideTheBench(t *testing.T) {
	all := rooms(t)
	for _, name := range stepped {
		if all[name] == nil {
			continue
		}
		for file, f := range all[name].names {
			ast.Inspect(f, func(n ast.Node) bool {
				if l, ok := n.(*ast.BasicLit); ok && l.Kind == token.STRING {
					assert.False(t, strings.Count(l.Value, " ") >= 2, "%s: a sentence %s", file, l.Value)
				}
				return true
			})
		}
	}
}
