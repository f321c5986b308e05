//go:build linux

package inputs

// here stands for the hostile path in a command line.
const here = "{}"

// reader is a command that reads a kind of file.
type reader struct {
	kind string
	args []string
	// live commands go on until they are interrupted.
	live bool
	// lax ones do not fail over one bad file, but tell of it.
	lax bool
	// own is where the file stands, below the playground, for commands that find it by themselves.
	own string
	// fresh are beginnings of paths, below the folder it runs in, that it is asked to write.
	fresh []string
	// saver has the file read by the program that saves, for want of a command.
	saver bool
}

func words(w ...string) []string { return w }

var readers = []reader{
	{kind: "craft", args: words("run", "script.yaml", "--craft", here)},
	{kind: "craft", args: words("run", "script.yaml", "--json", "--craft", here)},
	{kind: "craft", args: words("run", "script.yaml", "--record", "new.take", "--craft", here), fresh: words("new.take")},
	{kind: "craft", args: words("run", "good.take", "--craft", here)},
	{kind: "craft", args: words("card", "-o", "new.pdf", "--craft", here), fresh: words("new.pdf")},
	{kind: "craft", args: words("card", "-o", "new.svg", "--date", "none", "--craft", here), fresh: words("new.svg")},
	{kind: "craft", args: words("prove", here), live: true},
	{kind: "craft", args: words("prove", "--json", here, "radio.yaml"), live: true},
	{kind: "craft", args: words("prove", "--write", "ways", here), live: true, fresh: words("ways")},
	{kind: "craft", args: words("fly", "script.yaml", "--every", "100ms", "--craft", here)},
	{kind: "craft", args: words("link-loss", "--craft", here)},
	{kind: "craft", args: words("link-loss", "--json", "--craft", here)},
	{kind: "craft", args: words("watch", "--for", "20ms", "--craft", here)},
	{kind: "craft", args: words("check", "--for", "20ms", "--craft", here)},
	{kind: "craft", args: words("learn", "--craft", here)},
	{kind: "craft", args: words("drill", "run", "--craft", here), live: true},
	{kind: "craft", args: words("--craft", here)},
	{kind: "radio", args: words("run", "script.yaml", "--radio", here)},
	{kind: "radio", args: words("card", "-o", "new.pdf", "--radio", here), fresh: words("new.pdf")},
	{kind: "radio", args: words("card", "-o", "new.svg", "--radio", here), fresh: words("new.svg")},
	{kind: "radio", args: words("prove", "built-in", here), live: true},
	{kind: "radio", args: words("fly", "script.yaml", "--every", "100ms", "--radio", here)},
	{kind: "radio", args: words("watch", "--for", "20ms", "--radio", here)},
	{kind: "radio", args: words("check", "--for", "20ms", "--radio", here)},
	{kind: "radio", args: words("drill", "run", "--radio", here), live: true},
	{kind: "radio", args: words("--radio", here)},
	{kind: "radio", args: words("radios", "radios/hostile.yaml"), own: "work/radios/hostile.yaml", saver: true, lax: true},
	{kind: "gestures", args: words("gestures", "--gestures", here)},
	{kind: "gestures", args: words("gestures", "--json", "--gestures", here)},
	{kind: "gestures", args: words("gestures"), own: "conf/propsoff/gestures.yaml"},
	{kind: "gestures", args: words("run", "script.yaml", "--gestures", here)},
	{kind: "gestures", args: words("fly", "script.yaml", "--every", "100ms", "--gestures", here)},
	{kind: "gestures", args: words("card", "-o", "new.pdf", "--gestures", here), fresh: words("new.pdf")},
	{kind: "gestures", args: words("prove", "built-in", "--gestures", here), live: true},
	{kind: "gestures", args: words("drill", "check", "drill.yaml", "--gestures", here)},
	{kind: "gestures", args: words("--gestures", here)},
	{kind: "script", args: words("run", here)},
	{kind: "script", args: words("run", "--json", here)},
	{kind: "script", args: words("run", "--record", "new.take", here), fresh: words("new.take")},
	{kind: "script", args: words("run", "--live", here), live: true},
	{kind: "script", args: words("fly", "--every", "1s", here)},
	{kind: "script", args: words("fly", "--plot", "new.svg", "-o", "new.csv", here), fresh: words("new.svg", "new.csv")},
	{kind: "script", args: words("--play", here)},
	{kind: "take", args: words("run", here)},
	{kind: "take", args: words("run", "--json", here)},
	{kind: "take", args: words("run", "--record", "new.take", here), fresh: words("new.take")},
	{kind: "take", args: words("run", "--craft", "craft.yaml", here)},
	{kind: "take", args: words("run", "--live", here), live: true},
	{kind: "take", args: words("fly", "--every", "1s", here)},
	{kind: "take", args: words("fly", "--plot", "new.svg", here), fresh: words("new.svg")},
	{kind: "take", args: words("repair", here), fresh: words("hostile")},
	{kind: "take", args: words("--play", here)},
	{kind: "drill", args: words("drill", "check", here)},
	{kind: "drill", args: words("drill", "check", "drill.yaml", here, "course.yaml")},
	{kind: "course", args: words("drill", "check", here)},
	{kind: "logbook", args: words("logbook"), own: "data/propsoff/logbook/pupil-hostile.jsonl", lax: true},
	{kind: "logbook", args: words("logbook", "--folder", "logs", "--all"), own: "work/logs/pupil-hostile.jsonl", lax: true},
	{kind: "logbook", args: words("logbook", "--folder", "logs", "--json", "--pupil", "hostile"), own: "work/logs/pupil-hostile.jsonl", lax: true},
	{kind: "logbook", args: words("logbook", "--folder", "logs", "--csv", "-"), own: "work/logs/pupil-hostile.jsonl", lax: true},
	{kind: "logbook", args: words("logbook", "--folder", "logs", "--csv", "new.csv"), own: "work/logs/pupil-hostile.jsonl", lax: true, fresh: words("new.csv")},
	{kind: "logbook", args: words("logbook", "report", "--folder", "logs", "--pupil", "hostile", "-o", "new.pdf"), own: "work/logs/pupil-hostile.jsonl", lax: true, fresh: words("new.pdf")},
	{kind: "logbook", args: words("logbook", "report", "--folder", "logs", "--pupil", "hostile", "-o", "new.html"), own: "work/logs/pupil-hostile.jsonl", lax: true, fresh: words("new.html")},
	{kind: "logbook", args: words("logbook", "forget", "--folder", "logs", "--pupil", "other", "--yes"), own: "work/logs/copy-hostile.jsonl", lax: true},
	{kind: "sounds", args: words("sounds", here), saver: true},
}

// command is one that exists, with what it needs to run.
type command struct {
	name, rest []string
	live       bool
	asks       bool // and without an answer it does nothing
}

var commands = []command{
	{name: nil}, {name: words("radios")}, {name: words("learn"), live: true}, {name: words("check"), rest: words("--for", "20ms")}, {name: words("watch"), rest: words("--for", "20ms")},
	{name: words("prove"), rest: words("built-in"), live: true}, {name: words("card"), rest: words("-o", "new.pdf"), live: true}, {name: words("run"), rest: words("script.yaml"), live: true},
	{name: words("fly"), rest: words("script.yaml"), live: true}, {name: words("gestures")}, {name: words("drill")}, {name: words("drill", "run"), live: true}, {name: words("drill", "list")},
	{name: words("drill", "check"), rest: words("drill.yaml")}, {name: words("link-loss")}, {name: words("logbook"), rest: words("--folder", "logs")},
	{name: words("logbook", "report"), rest: words("--folder", "logs", "--pupil", "hostile", "-o", "new.pdf")},
	{name: words("logbook", "forget"), rest: words("--folder", "logs", "--pupil", "hostile"), asks: true},
	{name: words("logbook", "rename"), rest: words("--folder", "logs", "hostile", "newer")}, {name: words("logbook", "merge"), rest: words("--folder", "logs", "hostile", "other"), asks: true},
	{name: words("repair"), rest: words("good.take")}, {name: words("version")},
	{name: words("completion")}, {name: words("completion", "bash")}, {name: words("help")}, {name: words("__complete"), rest: words("run", "")},
}

// writer is a command that writes a file.
type writer struct {
	args []string
	exts []string
	// inputs are the files that it reads, as they stand in its line.
	inputs []string
	// fixed is the name that it gives to what it writes, where nobody can choose it.
	fixed string
	// second is its other output, with an option before it; empty where there is none.
	second []string
	stream bool // it can write to standard output by -
	take   bool // what it writes is whole up to where it ends
	folder bool // it writes a folder
	idle   bool // without a radio it ends before it writes: here that only means that nothing is harmed
}

var writers = []writer{
	{args: words("run", "script.yaml", "--craft", "craft.yaml", "--radio", "radio.yaml", "--record", here), exts: words(".take"), inputs: words("script.yaml", "craft.yaml", "radio.yaml"), take: true},
	{args: words("run", "good.take", "--record", here), exts: words(".take"), inputs: words("good.take"), take: true},
	{args: words("fly", "script.yaml", "-o", here), exts: words(".csv", ""), inputs: words("script.yaml"), second: words("--plot"), stream: true},
	{args: words("fly", "good.take", "--craft", "craft.yaml", "-o", here), exts: words(".csv"), inputs: words("good.take", "craft.yaml"), second: words("--record"), stream: true},
	{args: words("fly", "hop", "--plot", here), exts: words(".png", ".svg", ".pdf"), second: words("-o")},
	{args: words("fly", "hop", "-o", "new.csv", "--record", here), exts: words(".take"), second: words("--plot"), take: true},
	{args: words("card", "--craft", "craft.yaml", "--date", "2031-04-05", "-o", here), exts: words(".pdf", ".svg", ".png"), inputs: words("craft.yaml")},
	{args: words("logbook", "report", "--folder", "logs", "--pupil", "other", "--date", "2031-04-05", "-o", here), exts: words(".html", ".pdf", ".svg", ".png")},
	{args: words("logbook", "--folder", "logs", "--csv", here), exts: words(".csv", ".jsonl"), inputs: words("logs/pupil-other.jsonl"), stream: true},
	{args: words("prove", "craft.yaml", "radio.yaml", "--write", here), exts: words(""), inputs: words("craft.yaml", "radio.yaml"), folder: true},
	{args: words("learn", "--craft", "craft.yaml", "-o", here), exts: words(".yaml"), inputs: words("craft.yaml"), idle: true},
	{args: words("watch", "--for", "20ms", "--record", here), exts: words(".take"), take: true},
	{args: words("drill", "run", "--radio", "radio.yaml", "--record", here), exts: words(".take"), inputs: words("radio.yaml"), take: true, idle: true},
	{args: words("--picture", "0s="+here), exts: words(".png"), idle: true},
}

// lineReaders read commands from standard input.
var lineReaders = []struct {
	args, words []string
	may         []string
}{
	{args: words("learn"), words: words("enough", "back", "skip", "over", "1", "left", "right", "top", "springs", "call", "save", "quit", "save dear.txt", "save craft.yaml")},
	{args: words("learn", "--json"), words: words("enough", "back", "skip", "over", "call", "save", "quit")},
	{args: words("drill", "run"), words: words("answer", "link off", "link on", "power off", "power on", "cable out", "cable in", "level", "nudge", "menu closed", "propellers checked", "leave")},
	{args: words("drill", "run", "--json", "--pupil", "hostile"), words: words("answer", "link off", "leave")},
	{args: words("logbook", "forget", "--folder", "logs", "--pupil", "hostile"), words: words("n", "no", "yes", "YES", "y", "hostile"), may: words("work/logs/pupil-hostile.jsonl")},
	{args: words("logbook", "merge", "--folder", "logs", "hostile", "other"), words: words("n", "no", "yes", "YES", "y", "other"), may: words("work/logs")},
	{args: words("run", "-"), words: words("propsoff:", "script 1", "steps:", "- {at: 1s, arm: on}")},
	{args: words("fly", "-"), words: words("propsoff:", "script 1", "steps:", "- {at: 1s, arm: on}")},
	{args: words("run", "/dev/stdin"), words: words("propsoff:", "script 1")},
}
