package notes

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"slices"
	"strings"
)

//go:embed handout.html
var handoutPage string

// A handout is what the page's template wants.
type handout struct {
	Lang          string
	Title         entry
	Clinic        []entry
	Before, After []part
	Exercises     string // the heading above them
	Tick          string // what to do with the boxes
	Each          []sheet
	Day, Days     string
	Fortnight     []int
}

// A part is one part of the description.
type part struct {
	Class   string
	Heading string
	Items   []entry
	Plain   []entry
}

// A sheet is one exercise with boxes to tick, a row a set.
type sheet struct {
	Name    string
	Line    entry
	Details []entry
	Sets    []string
}

type entry struct {
	Text  string
	Blank bool
}

// The boxes of a hand-out: a fortnight, and at most as many sets as fit beside each other's exercises on a page.
const (
	fortnight = 14
	mostRows  = 6
)

// Handout writes one HTML page to print, on A4 or Letter: who it is for and what is needed, the exercises with their doses,
// other ways to do them, boxes to tick for each set over a fortnight, and the cautions. It needs no colour, loads nothing from
// elsewhere, and has headings, lists and tables that a screen reader can walk. The type follows the Clear Print advice of
// UKAAF G003 (2019): 14 point, none below 12, ranged left, no italics or capitals in running text.
func Handout(n *Notes) ([]byte, error) {
	t, err := template.New("handout").Parse(handoutPage)
	if err != nil {
		return nil, fmt.Errorf("the hand-out's page: %w", err)
	}
	var b bytes.Buffer
	if err := t.Execute(&b, handoutOf(n)); err != nil {
		return nil, fmt.Errorf("the hand-out: %w", err)
	}
	return b.Bytes(), nil
}

// handoutOf lays the lines of the description out for the page. Chapters, lengths and corrections stay with the video.
func handoutOf(n *Notes) handout {
	h := handout{Lang: british, Day: "Day", Days: "Boxes for two weeks", Tick: "Tick a box for each set that you do."}
	if n.american {
		h.Lang, h.Tick = american, "Check a box for each set that you do."
	}
	for day := 1; day <= fortnight; day++ {
		h.Fortnight = append(h.Fortnight, day)
	}
	for _, p := range slices.Backward(n.Lines) {
		if p.Part == partExercises && p.Form == Heading {
			h.Exercises = p.Text
		}
	}
	for _, l := range n.Lines {
		e := entry{Text: strings.Trim(l.Text, "[]"), Blank: l.Source == Blank}
		switch l.Part {
		case partTitle:
			h.Title = e
		case partClinic:
			if e.Blank { // room to write
				e.Text = [...]string{"Clinic:", "Therapist:"}[min(len(h.Clinic), 1)]
			}
			h.Clinic = append(h.Clinic, e)
		case partWho, partNeed, partEffort:
			addTo(&h.Before, l, e)
		case partAfter, partCautions:
			addTo(&h.After, l, e)
		case partExercises:
			h.exercise(l, e, n)
		}
	}
	return h
}

// addTo adds a line to the parts of one end of the page.
func addTo(parts *[]part, l Line, e entry) {
	if len(*parts) == 0 || (*parts)[len(*parts)-1].Class != class(l.Part) {
		*parts = append(*parts, part{Class: class(l.Part)})
	}
	p := &(*parts)[len(*parts)-1]
	switch l.Form {
	case Heading:
		p.Heading = l.Text
	case Plain:
		p.Plain = append(p.Plain, e)
	default:
		p.Items = append(p.Items, e)
	}
}

// class is the class of a part on the page, which keeps it in one piece.
func class(name string) string {
	if name == partCautions {
		return name
	}
	return "group " + name
}

// exercise adds a line of the exercises. What was done in the video is told only where no dose was.
func (h *handout) exercise(l Line, e entry, n *Notes) {
	switch {
	case l.Form == Heading:
	case l.Form == Item:
		s := sheet{Line: e}
		if i := len(h.Each); i < len(n.Exercises) {
			x := n.Exercises[i]
			s.Name = exerciseTitle(x.Name, i)
			if x.Phase == "work" || x.Phase == "balance" {
				for set := 1; set <= min(len(x.Sets), mostRows); set++ {
					s.Sets = append(s.Sets, fmt.Sprintf("Set %d", set))
				}
			}
		}
		h.Each = append(h.Each, s)
	case len(h.Each) == 0:
	case l.Source != Measured || len(h.Each) <= len(n.Exercises) && n.Exercises[len(h.Each)-1].blank():
		last := &h.Each[len(h.Each)-1]
		last.Details = append(last.Details, e)
	}
}
