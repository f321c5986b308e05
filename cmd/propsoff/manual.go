package main

import "propsoff.example/assets/words"

// manualHeadings are the sections of a page of the manual, by what the command library's writer calls them. The pages are written when packages
// are made (manual_test.go): the program needs neither them nor their writer.
func manualHeadings() map[string]words.Text {
	return map[string]words.Text{
		"NAME": words.T("manual.section-name"), "SYNOPSIS": words.T("manual.section-synopsis"), "DESCRIPTION": words.T("manual.section-description"),
		"OPTIONS": words.T("manual.section-options"), "OPTIONS INHERITED FROM PARENT COMMANDS": words.T("manual.section-options-of-all"),
		"EXAMPLE": words.T("manual.section-examples"), "SEE ALSO": words.T("manual.section-see-also"),
	}
}

// manualTitle stands above each page.
func manualTitle() words.Text { return words.T("manual.title") }
