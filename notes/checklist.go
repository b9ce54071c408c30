package notes

import (
	"fmt"
	"math"
	"strings"

	"captally.example/captally/analyze"
)

// A Topic is one item of a published reporting checklist, and what the captions can say to it.
type Topic struct {
	Checklist string `json:"checklist"` // CERT or TIDieR
	Number    string `json:"number"`    // e.g. "7a"
	Topic     string `json:"topic"`     // in words of the project's own
	Filler    string `json:"filler"`    // who can fill it, see the constants
	Lines     []Line `json:"lines"`     // what is known, and a blank where the therapist must say more
}

// Who can fill an item of a checklist.
const (
	ByCaptions  = "captions"
	ByTherapist = "therapist"
	ByBoth      = "captions, confirmed by the therapist"
)

// The two checklists. CERT: Slade SC, Dionne CE, Underwood M, Buchbinder R 2016, Br J Sports Med 50(23):1428-37, 16 items, 19
// with their halves. TIDieR: Hoffmann TC et al. 2014, BMJ 348:g1687, doi:10.1136/bmj.g1687, 12 items.
const (
	CERT   = "CERT"
	TIDieR = "TIDieR"
)

// what a topic asks of the draft.
type ask uint8

const (
	askNothing ask = iota // only the therapist knows
	askTitle
	askEquipment
	askProvider
	askDelivery
	askExercises
	askTalk
	askCautions
	askDose
	askOptions
	askMeans
	askFidelity
)

// topics lists every item in its checklist's order. Who can fill which is the project's own judgement.
var topics = [...]struct {
	list, number, topic, filler string
	ask                         ask
}{
	{CERT, "1", "Equipment", ByBoth, askEquipment},
	{CERT, "2", "Training of the instructor", ByTherapist, askProvider},
	{CERT, "3", "Alone or in a group", ByTherapist, askNothing},
	{CERT, "4", "Supervision and delivery", ByBoth, askDelivery},
	{CERT, "5", "How it is measured whether people keep to it", ByTherapist, askNothing},
	{CERT, "6", "Motivation", ByBoth, askNothing},
	{CERT, "7a", "Rule for making it harder", ByTherapist, askNothing},
	{CERT, "7b", "How it was made harder", ByTherapist, askNothing},
	{CERT, "8", "Each exercise", ByCaptions, askExercises},
	{CERT, "9", "Home programme", ByBoth, askNothing},
	{CERT, "10", "Parts that are not exercise", ByBoth, askTalk},
	{CERT, "11", "Harm: kind and number of adverse events", ByTherapist, askCautions},
	{CERT, "12", "Setting", ByTherapist, askNothing},
	{CERT, "13", "Dose", ByBoth, askDose},
	{CERT, "14a", "The same for all, or tailored", ByBoth, askNothing},
	{CERT, "14b", "How it is tailored", ByTherapist, askOptions},
	{CERT, "15", "Rule for the starting level", ByTherapist, askNothing},
	{CERT, "16a", "How delivery is checked against the plan", ByCaptions, askMeans},
	{CERT, "16b", "Delivered as planned", ByCaptions, askFidelity},
	{TIDieR, "1", "Name", ByCaptions, askTitle},
	{TIDieR, "2", "Why", ByTherapist, askNothing},
	{TIDieR, "3", "Materials", ByBoth, askEquipment},
	{TIDieR, "4", "Procedures", ByCaptions, askExercises},
	{TIDieR, "5", "Who provides it", ByTherapist, askProvider},
	{TIDieR, "6", "How it is delivered", ByBoth, askDelivery},
	{TIDieR, "7", "Where", ByTherapist, askNothing},
	{TIDieR, "8", "When and how much", ByBoth, askDose},
	{TIDieR, "9", "Tailoring", ByBoth, askOptions},
	{TIDieR, "10", "Changes on the way", ByTherapist, askNothing},
	{TIDieR, "11", "Delivery as planned: how it is checked", ByBoth, askMeans},
	{TIDieR, "12", "Delivery as planned: how it went", ByCaptions, askFidelity},
}

// Checklist sets what is known of a session under the items of CERT and TIDieR. What only the therapist knows stays a blank.
func Checklist(r *analyze.Report, p Profile) []Topic {
	n := Draft(r, p)
	out := make([]Topic, len(topics))
	for i, t := range topics {
		w := &writer{part: t.list + " " + t.number, lines: []Line{}, wording: p.wording()}
		w.answer(t.ask, r, n, p)
		if w.american {
			t.topic = strings.ReplaceAll(t.topic, "programme", "program")
		}
		switch {
		case len(w.lines) == 0:
			w.line(Item, Blank, "["+lower(t.topic)+"?]")
		case t.filler == ByBoth:
			w.line(Item, Blank, "[is that all? confirm or add]")
		case t.ask == askCautions || t.ask == askOptions:
			w.line(Item, Blank, "["+lower(t.topic)+": what happened beyond what was said?]")
		}
		out[i] = Topic{Checklist: t.list, Number: t.number, Topic: t.topic, Filler: t.filler, Lines: w.lines}
	}
	return out
}

// answer writes what is known to one ask.
func (w *writer) answer(a ask, r *analyze.Report, n *Notes, p Profile) {
	switch a {
	case askTitle:
		if n.Title != nil {
			w.lineAt(Item, Said, stop(upper(n.Title.Text)), n.Title.At)
		}
	case askEquipment:
		w.quotes(n.Equipment)
	case askProvider:
		if p.Qualification != "" {
			w.line(Item, Standing, p.Qualification)
		}
	case askDelivery:
		w.line(Item, Measured, "A recorded video to follow along, with captions.")
	case askExercises:
		for i, e := range n.Exercises {
			w.exercise(i, e)
		}
	case askTalk:
		if t := r.Totals.Talk; t > 0 {
			w.line(Item, Measured, fmt.Sprintf("Talk and explaining: %s.", w.minutes(t)))
		}
	case askCautions:
		for _, c := range n.Cautions {
			if c.At != nil {
				w.lineAt(Item, Said, "Warned of: "+stop(c.Text), *c.At)
			}
		}
	case askDose:
		w.done(r)
		w.quotes(n.After)
	case askOptions:
		w.quotes(quotes(r.Session.Options))
	case askMeans:
		w.line(Item, Measured, "What was done is counted from the captions and set against what was announced.")
	case askFidelity:
		w.line(Item, Measured, stop(upper(analyze.Verdict(r))))
	}
}

func (w *writer) quotes(qs []Quote) {
	for _, q := range qs {
		w.lineAt(Item, Said, stop(upper(q.Text)), q.At)
	}
}

func (w *writer) done(r *analyze.Report) {
	t := r.Totals
	if t.Sets > 0 {
		text := fmt.Sprintf("%d sets", t.Sets)
		if t.Reps > 0 {
			text += fmt.Sprintf(", %d repetitions", t.Reps)
		}
		w.line(Item, Measured, text+".")
		w.line(Item, Measured, fmt.Sprintf("Time under tension: %.0f seconds (%.0f to %.0f).", t.Tension.Value, math.Floor(t.Tension.Low), math.Ceil(t.Tension.High)))
	}
	if r.Source.Duration > 0 {
		w.line(Item, Measured, fmt.Sprintf("Length of the session: %s.", w.minutes(r.Source.Duration)))
	}
}

// ChecklistText writes a checklist for a person to read on a terminal or paste.
func ChecklistText(topics []Topic) string {
	var b strings.Builder
	for i, t := range topics {
		if i == 0 || t.Checklist != topics[i-1].Checklist {
			if i > 0 {
				b.WriteByte('\n')
			}
			b.WriteString(t.Checklist + "\n")
		}
		fmt.Fprintf(&b, "\n%s. %s (%s)\n", t.Number, t.Topic, t.Filler)
		for _, l := range t.Lines {
			b.WriteString(plainMarks[l.Form][0] + l.Text + plainMarks[l.Form][1] + "\n")
		}
	}
	return b.String()
}
