package main

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strings"

	"propsoff.example/assets/words"
)

// desktopFile is the program's entry in a menu, by the Desktop Entry Specification.
func desktopFile() []byte {
	var b strings.Builder
	b.WriteString("[Desktop Entry]\nType=Application\nName=propsoff\nExec=propsoff\nIcon=propsoff\nTerminal=false\nCategories=Education;\nStartupWMClass=propsoff\n")
	for _, line := range []struct {
		key string
		say words.Text
	}{{"Comment", words.T("package.summary")}, {"Keywords", words.T("package.keywords")}} {
		for _, tag := range words.Languages() {
			key := line.key
			if tag.String() != "en" {
				key += "[" + tag.String() + "]"
			}
			fmt.Fprintf(&b, "%s=%s\n", key, words.In(tag.String()).Say(line.say))
		}
	}
	return []byte(b.String())
}

// componentID is the program's name in catalogues, by the AppStream specification: the address from its end, and the program.
const componentID = "example.propsoff.propsoff"

// metainfo is what software catalogues say of the program, by the AppStream specification.
func metainfo(version, day string) []byte {
	var b bytes.Buffer
	b.WriteString(xml.Header + `<component type="desktop-application">
  <id>` + componentID + `</id>
  <metadata_license>MIT</metadata_license>
  <project_license>MIT</project_license>
  <name>propsoff</name>
  <developer id="example.propsoff"><name>the propsoff authors</name></developer>
  <developer_name>the propsoff authors</developer_name>
`)
	each := func(element, pad string, text words.Text) {
		for _, tag := range words.Languages() {
			lang := ""
			if tag.String() != "en" {
				lang = ` xml:lang="` + tag.String() + `"`
			}
			fmt.Fprintf(&b, "%s<%s%s>", pad, element, lang)
			xml.EscapeText(&b, []byte(words.In(tag.String()).Say(text))) //nolint:errcheck // into memory
			fmt.Fprintf(&b, "</%s>\n", element)
		}
	}
	each("summary", "  ", words.T("package.summary"))
	b.WriteString("  <description>\n")
	each("p", "    ", words.T("package.about"))
	each("p", "    ", words.T("caution.radio-transmits"))
	each("p", "    ", words.T("caution.no-clearance"))
	fmt.Fprintf(&b, `  </description>
  <launchable type="desktop-id">propsoff.desktop</launchable>
  <url type="homepage">https://propsoff.example/</url>
  <provides><binary>propsoff</binary></provides>
  <content_rating type="oars-1.1"/>
  <releases>
    <release version="%s" date="%s"/>
  </releases>
</component>
`, version, day)
	return b.Bytes()
}

// radioRule gives whoever sits at the machine the right to read its joysticks. Its name sorts before 73, where systemd hands rights out to those
// that bear the tag (sd-login, 73-seat-late.rules), and after 60, where a device is found to be a joystick.
const (
	radioRuleName = "70-propsoff-radio.rules"
	radioRule     = `# Whoever sits at this machine may read the radios that are plugged in, event nodes (full resolution) and classic nodes alike.
ACTION!="remove", SUBSYSTEM=="input", KERNEL=="event[0-9]*|js[0-9]*", ENV{ID_INPUT_JOYSTICK}=="?*", TAG+="uaccess"
`
)
