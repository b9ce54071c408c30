package notes

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// A spare is a group of lines that a description can do without.
type spare struct {
	what string // is left out
	many string // the same of several lines, where they go one by one from the last; empty where all go at once
	is   func(Line) bool
}

// spares are the lines that a description can do without, the least needed first. The title, the exercises with their doses,
// the cautions and the clinic are not among them.
var spares = [...]spare{
	{"the sources of the warning signs", "", func(l Line) bool { return l.Part == partCautions && l.Form == Plain }},
	{"another way to do an exercise", "other ways to do the exercises", func(l Line) bool { return l.Part == partExercises && l.Form == Detail && l.Source == Said }},
	{"how often, and the day after", "", func(l Line) bool { return l.Part == partAfter }},
	{"the lengths", "", func(l Line) bool { return l.Part == partTime }},
	{"what is done in the video", "", func(l Line) bool { return l.Part == partExercises && l.Form == Detail && l.Source == Measured }},
	{"how hard it should feel", "", func(l Line) bool { return l.Part == partEffort }},
	{"the chapters", "", func(l Line) bool { return l.Part == partChapters }},
	{"what is needed", "", func(l Line) bool { return l.Part == partNeed }},
	{"who it is for", "", func(l Line) bool { return l.Part == partWho }},
	{"the corrections", "", func(l Line) bool { return l.Part == partCorrections }},
}

// Limit returns the notes with a description of at most the given number of characters in the given form, [Text] or
// [Markdown]. What does not fit is left out, the least needed first, and a blank at the end says what it was. n is not
// changed. The error says how many characters the shortest description needs.
func Limit(n *Notes, characters int, form func(*Notes) string) (*Notes, error) {
	out := *n
	if size(&out, form) <= characters {
		return &out, nil
	}
	out.Lines = slices.Clone(n.Lines)
	var left []string
	for _, s := range spares {
		gone := 0
		for i := len(out.Lines) - 1; i >= 0; i-- {
			if !s.is(out.Lines[i]) {
				continue
			}
			out.Lines = slices.Delete(out.Lines, i, i+1)
			gone++
			if s.many != "" && size(told(&out, append(left, s.told(gone))), form) <= characters {
				break
			}
		}
		if gone == 0 {
			continue
		}
		left = append(left, s.told(gone))
		if shorter := told(&out, left); size(shorter, form) <= characters {
			return shorter, nil
		}
	}
	return nil, fmt.Errorf("the shortest description that keeps the exercises and the cautions has %d characters", size(told(&out, left), form))
}

// told says what of a group is left out.
func (s spare) told(lines int) string {
	if s.many == "" || lines == 1 {
		return s.what
	}
	return fmt.Sprintf("%d %s", lines, s.many)
}

// told returns the notes with a blank that says what was left out, and their text.
func told(n *Notes, left []string) *Notes {
	out := *n
	out.Lines = append(slices.Clone(n.Lines), Line{Part: partLeftOut, Form: Plain, Source: Blank, Text: "[left out to keep it short: " + strings.Join(left, "; ") + "]"})
	out.Text = Text(&out)
	return &out
}

func size(n *Notes, form func(*Notes) string) int { return utf8.RuneCountInString(form(n)) }
