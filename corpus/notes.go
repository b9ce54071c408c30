package corpus

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"captally.example/captally/segment/caption"
)

// Draft is what is scored of the drafted notes: a part of their public JSON form, which decodes into it.
type Draft struct {
	Level     *Said           `json:"level"`
	Equipment []Said          `json:"equipment"`
	Exercises []DraftExercise `json:"exercises"`
	Chapters  []DraftChapter  `json:"chapters"`
	Lines     []DraftLine     `json:"lines"`
}

// Said is something that the notes quote.
type Said struct {
	Text string `json:"text"`
}

// DraftExercise is one exercise of the notes; an entry of Sets is a set as announced.
type DraftExercise struct {
	Name  string   `json:"name"`
	Phase *string  `json:"phase"` // nil counts as work
	Start *float64 `json:"start_s"`
	Sets  []Dose   `json:"sets"`
}

// DraftChapter is one chapter.
type DraftChapter struct {
	Start *float64 `json:"start_s"`
	Title string   `json:"title"`
}

// DraftLine is one line of the text.
type DraftLine struct {
	Source string `json:"source"` // "said", "measured", "standing", "blank"
}

// chapterNear is how far a chapter or an exercise of the notes may start from the true start, in seconds.
const chapterNear = 20.0

// filler are words of a level or of equipment that carry no fact.
var filler = wordsOf("with without able some something your you for the have has had are was been from into onto this that or in at it is be by")

// trueExercise is an exercise of the truth: the sets of one name and phase, taken together.
type trueExercise struct {
	name, phase string
	start       float64
	dose        *Dose          // announced for its first set
	sides       map[string]int // sets of each side
}

// sets returns the number of sets as announced: left and right of one set are one.
func (e trueExercise) sets() int {
	n := 0
	for _, k := range e.sides {
		n = max(n, k)
	}
	return n
}

// exercises returns the work and balance exercises of the truth in their order.
func (t *Truth) exercises() []trueExercise {
	var out []trueExercise
	for _, s := range t.Sets {
		if !exertion(s.Phase) {
			continue
		}
		i := slices.IndexFunc(out, func(e trueExercise) bool { return e.name == s.Exercise && e.phase == s.Phase })
		if i < 0 {
			i = len(out)
			out = append(out, trueExercise{s.Exercise, s.Phase, s.Start, s.Prescribed, map[string]int{}})
		}
		out[i].sides[s.Side]++
	}
	return out
}

// ScoreNotes compares the draft of one session with its truth. File is what the draft was made from. A nil draft scores as an empty one.
//
// The figures are:
//   - exercises named: recall and precision of names over the different exercises of the work and balance sets
//   - dose right: the dose announced first for the exercise; number of sets right: with both sides of one set as one; exercise starts within 20 s
//   - exercises with a chapter: of that name within 20 s of their start; chapters valid: at least three, the first at 0, each 10 s or more after
//     the one before, none without a title; warm-up and cool-down have a chapter within 20 s of their start
//   - level, equipment (recall of words): content words of the truth that stand in the notes; never said: content words there which are not in the captions
//   - lines with a source: share of the lines of the text that say where they come from
func ScoreNotes(truth *Truth, draft *Draft, file File) *Tally {
	if draft == nil {
		draft = new(Draft)
	}
	s := &noteScoring{NewTally(file.Timing), truth, draft}
	s.exercises()
	s.chapters()
	s.facts(file)
	sourced := make([]float64, len(draft.Lines))
	for i, line := range draft.Lines {
		if slices.Contains([]string{"said", "measured", "standing", "blank"}, line.Source) {
			sourced[i] = 1
		}
	}
	if len(sourced) == 0 {
		sourced = []float64{0}
	}
	s.add("lines with a source", mean(sourced))
	return s.Tally
}

// noteScoring is one draft on its way to scores.
type noteScoring struct {
	*Tally
	truth *Truth
	draft *Draft
}

func (s *noteScoring) wrong(e trueExercise, format string, args ...any) {
	s.Errors = append(s.Errors, fmt.Sprintf("%s.%s %s %s: %s", s.truth.Name, s.Timing, caption.At(e.start), e.name, fmt.Sprintf(format, args...)))
}

func (s *noteScoring) exercises() {
	var drafted []DraftExercise
	for _, d := range s.draft.Exercises {
		if d.Phase == nil || exertion(*d.Phase) {
			drafted = append(drafted, d)
		}
	}
	want := s.truth.exercises()
	for _, e := range want {
		s.exercise(e, nearest(e, drafted))
	}
	for _, d := range drafted {
		s.share("exercises named (precision)", slices.ContainsFunc(want, func(e trueExercise) bool { return sameExercise(e.name, d.Name) }))
	}
}

// nearest returns the drafted exercise of the right name that starts nearest to the true one, the first of equals, nil for none.
func nearest(e trueExercise, drafted []DraftExercise) *DraftExercise {
	var best *DraftExercise
	for i := range drafted {
		d := &drafted[i]
		if sameExercise(e.name, d.Name) && (best == nil || from(e.start, d.Start) < from(e.start, best.Start)) {
			best = d
		}
	}
	return best
}

// from returns the distance in seconds of a stated time, very far for none.
func from(truth float64, stated *float64) float64 {
	if stated == nil {
		return math.Abs(1e9 - truth)
	}
	return math.Abs(*stated - truth)
}

// exercise scores one exercise of the truth against the drafted one, nil for none.
func (s *noteScoring) exercise(e trueExercise, d *DraftExercise) {
	s.share("exercises named (recall)", d != nil)
	s.share("exercise starts within 20 s", d != nil && from(e.start, d.Start) <= chapterNear)
	if d == nil {
		s.wrong(e, "not in the notes")
		d = new(DraftExercise)
	}
	if e.dose != nil && *e.dose != (Dose{}) {
		right := len(d.Sets) > 0 && (e.dose.Reps == 0 || d.Sets[0].Reps == e.dose.Reps) && (e.dose.Seconds == 0 || d.Sets[0].Seconds == e.dose.Seconds)
		s.share("dose right", right)
		if !right {
			s.wrong(e, "announced %+v, the notes say %+v", *e.dose, d.Sets)
		}
	}
	s.share("number of sets right", len(d.Sets) == e.sets())
	if len(d.Sets) != e.sets() {
		s.wrong(e, "%d sets, the notes say %d", e.sets(), len(d.Sets))
	}
}

func (s *noteScoring) chapters() {
	chapters := s.draft.Chapters
	valid := len(chapters) >= 3
	at := make([]float64, len(chapters))
	for i, c := range chapters {
		at[i] = -1
		if c.Start != nil {
			at[i] = *c.Start
		}
		if i == 0 {
			valid = valid && at[0] == 0
		} else {
			valid = valid && at[i]-at[i-1] >= 10
		}
		valid = valid && strings.TrimSpace(c.Title) != ""
	}
	s.share("chapters valid", valid)
	for _, e := range s.truth.exercises() {
		there := slices.ContainsFunc(chapters, func(c DraftChapter) bool {
			return sameExercise(e.name, c.Title) && from(e.start, c.Start) <= chapterNear
		})
		s.share("exercises with a chapter", there)
		if !there {
			s.wrong(e, "no chapter of that name within %g s", chapterNear)
		}
	}
	for _, kind := range []string{"warm-up", "cool-down"} {
		if i := slices.IndexFunc(s.truth.Phases, func(p Phase) bool { return p.Kind == kind }); i >= 0 {
			start := s.truth.Phases[i].Start
			s.share(kind+" has a chapter", slices.ContainsFunc(at, func(a float64) bool { return math.Abs(a-start) <= chapterNear }))
		}
	}
}

// facts scores what the notes say of the level and the equipment.
func (s *noteScoring) facts(file File) {
	heard := wordsOf(tags.ReplaceAllString(string(file.Data), ""))
	level := ""
	if s.draft.Level != nil {
		level = s.draft.Level.Text
	}
	var equipment []string
	for _, e := range s.draft.Equipment {
		equipment = append(equipment, e.Text)
	}
	s.fact("level", s.truth.Level, level, heard)
	s.fact("equipment", s.truth.Equipment, strings.Join(equipment, " "), heard)
}

// tags are the marks that captions carry inside their text.
var tags = regexp.MustCompile(`<[^>]*>`)

func (s *noteScoring) fact(name, truth, drafted string, heard wordSet) {
	want, got := wordsOf(truth).without(filler), wordsOf(drafted).without(filler)
	if len(want) > 0 && truth != "none" {
		s.add(name+" (recall of words)", float64(want.shared(got))/float64(len(want)))
	}
	s.add("never said: words in "+name, float64(len(got.without(heard))))
}
