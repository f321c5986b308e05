package lookup

import (
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/remembered"
	"propsoff.example/cmd/propsoff/internal/sound"
)

// exits are the exit statuses.
func exits() []Part {
	p := Part{Says: words.Each("look-up", "exit-own", "exit-signals"), Columns: words.Each("look-up", "status", "when")}
	for _, s := range []struct {
		status int
		more   string
		when   words.Text
	}{
		{exit.CodeDone, "", words.T("exit-status.done")},
		{exit.CodeFailed, "", words.T("exit-status.failed")},
		{exit.CodeBadInput, "", words.T("exit-status.bad-input")},
		{exit.CodeTrouble, "", words.T("exit-status.trouble")},
		{exit.CodeUnfinished, "", words.T("exit-status.unfinished")},
		{exit.CodeAtOnce, " + n", words.T("exit-status.at-once", words.Args{"interrupt": words.Whole(exit.CodeAtOnce + 2)})},
	} {
		p.Rows = append(p.Rows, []Cell{code(strconv.Itoa(s.status) + s.more), said(s.when)})
	}
	return []Part{p}
}

// kept are the files that the program keeps, and where.
func kept() []Part {
	in := func(folder string, rows ...[]Cell) Part {
		return Part{Heading: words.Of("look-up", folder), Says: []words.Text{words.Of("look-up", folder+"-where")}, Columns: words.Each("look-up", "file", "holds"), Rows: rows}
	}
	row := func(file string, holds words.Text) []Cell { return []Cell{code(file), said(holds)} }
	return []Part{
		in("settings-folder",
			row("radios/*.yaml", words.T("kept-file.radios")),
			row("crafts/*.yaml", words.T("kept-file.crafts")),
			row("gestures.yaml", words.T("kept-file.gestures")),
			row(remembered.FileName, words.T("kept-file.remembered")),
			row("searched.yaml", words.T("kept-file.searched")),
			row(sound.FileName, words.T("kept-file.sounds")),
			row("cautions-read", words.T("kept-file.cautions-read"))),
		in("data-folder",
			row("logbook/*.jsonl", words.T("kept-file.logbook")),
			row("takes/*.take", words.T("kept-file.takes"))),
		Part{Heading: words.T("look-up.files-rules"), Says: words.Each("look-up", "files-over", "files-private", "files-streams", "files-elsewhere")},
	}
}
