package notes

import (
	"errors"
	"fmt"
	"strings"

	"github.com/BurntSushi/toml"
)

// A Profile is what a therapist says in every note: who they are, their own cautions, their own headings.
type Profile struct {
	Clinic        string            `toml:"clinic"`        // e.g. "Harbour Lane Clinic"
	Qualification string            `toml:"qualification"` // who teaches, and their training
	Emergency     string            `toml:"emergency"`     // the local emergency number; empty leaves it to the reader
	Cautions      []StandingCaution `toml:"cautions"`      // in addition to the standing warning signs
	Headings      Headings          `toml:"headings"`
}

// A StandingCaution is a caution that stands in every note, and where it comes from.
type StandingCaution struct {
	Text   string `toml:"text"`
	Source string `toml:"source"` // a published source, empty for the therapist's own words
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

// ReadProfile reads a profile from TOML. Errors are "name:line: what is wrong"; a key that no profile has is one.
func ReadProfile(name string, data []byte) (Profile, error) {
	var p Profile
	meta, err := toml.Decode(string(data), &p)
	if err != nil {
		return Profile{}, fmt.Errorf("%s:%d: %s", name, lineOfError(err), wrongProfile(err))
	}
	if unknown := meta.Undecoded(); len(unknown) > 0 {
		key := unknown[0]
		return Profile{}, fmt.Errorf("%s:%d: a profile has no %q; it has clinic, qualification, emergency, cautions (text, source) and headings (who, need, effort, exercises, after, chapters, corrections, cautions)",
			name, lineOf(string(data), key), key.String())
	}
	for i, c := range p.Cautions {
		if strings.TrimSpace(c.Text) == "" {
			return Profile{}, fmt.Errorf("%s: caution %d has no text", name, i+1)
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
	last := key[len(key)-1]
	for i, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		if table := strings.Trim(line, "[] "); strings.HasPrefix(line, "[") && (table == key.String() || table == last) {
			return i + 1
		}
		name, _, found := strings.Cut(line, "=")
		name = strings.Trim(name, ` "'`)
		if found && (name == last || name == key.String()) {
			return i + 1
		}
	}
	return 1
}
