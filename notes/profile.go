package notes

import (
	_ "embed"
	"errors"
	"fmt"
	"strings"

	"github.com/BurntSushi/toml"

	"captally.example/captally/analyze"
)

// ProfileName is the name that a profile's file has beside the captions, or in the user's configuration folder.
const ProfileName = "captally.toml"

//go:embed profile.toml
var profileExample string

// ProfileExample returns a profile in TOML that says nothing yet: every key it may have stands in a comment, explained.
func ProfileExample() []byte { return []byte(profileExample) }

// A Profile is what a therapist says in every note: who they are, their own cautions, their own words. The zero value is
// one that has told nothing.
type Profile struct {
	Clinic        string            `toml:"clinic"`        // e.g. "Harbour Lane Clinic"
	Qualification string            `toml:"qualification"` // who teaches, and their training
	Emergency     string            `toml:"emergency"`     // the local emergency number; empty leaves it to the reader
	Language      string            `toml:"language"`      // "en-GB" (also when empty) or "en-US", of the draft's own words
	Units         string            `toml:"units"`         // "long" (also when empty): 30 seconds; "short": 30 s
	Cautions      []StandingCaution `toml:"cautions"`      // in addition to the standing warning signs
	Levels        []Level           `toml:"levels"`        // the levels of the clinic's own scheme
	Exercises     map[string]string `toml:"exercises"`     // an exercise's name as said, and as it is to be written
	Headings      Headings          `toml:"headings"`
}

// A StandingCaution is a caution that stands in every note, and where it comes from.
type StandingCaution struct {
	Text   string `toml:"text"`
	Source string `toml:"source"` // a published source, empty for the therapist's own words
}

// A Level is one level of a clinic's own scheme.
type Level struct {
	Name string   `toml:"name"` // e.g. "Blue: standing with support"
	Says []string `toml:"says"` // a session is of this level where it says one of these of whom it is for
}

// Headings are the headings of the description; an empty one means the default.
type Headings struct {
	Who         string `toml:"who"`
	Need        string `toml:"need"`
	Effort      string `toml:"effort"`
	Exercises   string `toml:"exercises"`
	After       string `toml:"after"`
	Chapters    string `toml:"chapters"`
	Corrections string `toml:"corrections"`
	Cautions    string `toml:"cautions"`
}

func (h Headings) withDefaults() Headings {
	for _, d := range []struct {
		field *string
		text  string
	}{
		{&h.Who, "Who it is for"},
		{&h.Need, "What you need"},
		{&h.Effort, "How hard it should feel"},
		{&h.Exercises, "The exercises"},
		{&h.After, "How often, and the day after"},
		{&h.Chapters, "Chapters"},
		{&h.Corrections, "Please note"},
		{&h.Cautions, "Keep safe"},
	} {
		if *d.field == "" {
			*d.field = d.text
		}
	}
	return h
}

// The values of Language and Units.
const (
	british  = "en-GB"
	american = "en-US"
	long     = "long"
	short    = "short"
)

func (p Profile) wording() wording {
	return wording{short: p.Units == short, american: p.Language == american}
}

// renamed returns the report with the profile's names of exercises in the place of those that were said; r is not changed.
func (p Profile) renamed(r *analyze.Report) *analyze.Report {
	if len(p.Exercises) == 0 {
		return r
	}
	names := map[string]string{}
	for said, written := range p.Exercises {
		names[fold(said)] = written
	}
	out := *r
	out.Sets = append([]analyze.Set(nil), r.Sets...)
	for i := range out.Sets {
		if name, ok := names[fold(out.Sets[i].Exercise)]; ok {
			out.Sets[i].Exercise = name
		}
	}
	return &out
}

// level returns the name of the clinic's level that says the longest of what the session says of whom it is for; empty for
// none, or for two that say equally much.
func (p Profile) level(said *Quote) string {
	if said == nil {
		return ""
	}
	name, most := "", 0
	for _, l := range p.Levels {
		for _, phrase := range l.Says {
			phrase = strings.ToLower(oneLine(phrase))
			switch {
			case phrase == "" || !strings.Contains(strings.ToLower(said.Text), phrase):
			case len(phrase) > most:
				name, most = l.Name, len(phrase)
			case len(phrase) == most && l.Name != name:
				name = ""
			}
		}
	}
	return name
}

// ReadProfile reads a profile from TOML. Errors are "name:line: what is wrong"; a key that no profile has is one.
func ReadProfile(name string, data []byte) (Profile, error) {
	var p Profile
	text := string(data)
	meta, err := toml.Decode(text, &p)
	if err != nil {
		return Profile{}, fmt.Errorf("%s:%d: %s", name, lineOfError(err), wrongProfile(err))
	}
	if unknown := meta.Undecoded(); len(unknown) > 0 {
		key := unknown[0]
		return Profile{}, fmt.Errorf("%s:%d: a profile has no %q; it has clinic, qualification, emergency, language, units, cautions (text, source), levels (name, says), exercises and headings (who, need, effort, exercises, after, chapters, corrections, cautions)",
			name, lineOf(text, key), key.String())
	}
	for _, x := range []struct {
		key, value string
		may        [2]string
	}{{"language", p.Language, [2]string{british, american}}, {"units", p.Units, [2]string{long, short}}} {
		if x.value != "" && x.value != x.may[0] && x.value != x.may[1] {
			return Profile{}, fmt.Errorf("%s:%d: %s is %q or %q, not %q", name, lineOf(text, toml.Key{x.key}), x.key, x.may[0], x.may[1], x.value)
		}
	}
	for i, c := range p.Cautions {
		if strings.TrimSpace(c.Text) == "" {
			return Profile{}, fmt.Errorf("%s:%d: caution %d has no text", name, lineOfTable(text, "cautions", i), i+1)
		}
	}
	for i, l := range p.Levels {
		if strings.TrimSpace(l.Name) == "" || len(l.Says) == 0 {
			return Profile{}, fmt.Errorf("%s:%d: level %d needs a name, and in says a list of what a session of that level says", name, lineOfTable(text, "levels", i), i+1)
		}
	}
	return p, nil
}

// lineOfError returns the line of a reader's error. One of a wrong type bears its line in its text alone.
func lineOfError(err error) int {
	var at toml.ParseError
	if errors.As(err, &at) {
		return at.Position.Line
	}
	line := 1
	fmt.Sscanf(err.Error(), "toml: line %d", &line)
	return line
}

// wrongProfile words a reader's error without its place.
func wrongProfile(err error) string {
	var at toml.ParseError
	if errors.As(err, &at) {
		return at.Message
	}
	_, text, found := strings.Cut(err.Error(), "): ")
	if !found {
		return err.Error()
	}
	if strings.Contains(text, "destination has type string") {
		return "text in quotes was expected here"
	}
	return text
}

// lineOf returns the first line, from 1, that sets a key or opens its table. The reader gives no place for a key it has kept.
func lineOf(text string, key toml.Key) int {
	table, nearly := "", 1
	for i, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		if strings.HasPrefix(line, "[") {
			if table = strings.Trim(line, "[] "); table == key.String() {
				return i + 1
			}
			continue
		}
		name, _, found := strings.Cut(line, "=")
		name = strings.Trim(name, ` "'`)
		switch path := strings.TrimPrefix(table+"."+name, "."); {
		case !found || strings.HasPrefix(line, "#"):
		case path == key.String():
			return i + 1
		case name == key[len(key)-1] && nearly == 1:
			nearly = i + 1 // a table within a line, perhaps
		}
	}
	return nearly
}

// lineOfTable returns the line, from 1, that opens entry i of an array of tables.
func lineOfTable(text, table string, i int) int {
	for n, line := range strings.Split(text, "\n") {
		if line = strings.TrimSpace(line); strings.HasPrefix(line, "[["+table+"]]") {
			if i == 0 {
				return n + 1
			}
			i--
		}
	}
	return 1
}
