package notes

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"captally.example/captally/analyze"
)

// A group is the sets of one exercise in one kind of phase, as indices into Report.Sets.
type group struct {
	key  string
	sets []int
}

// groups gathers the sets of each exercise, in the order of their first sets. The other side that follows at once belongs to
// the exercise even where its name was said in part or not at all. Otherwise sets without a name belong together only while
// they follow each other with the same dose.
func groups(r *analyze.Report) []group {
	var out []group
	place := map[string]int{}
	last := -1 // the group of the set before
	for i, s := range r.Sets {
		key := s.Phase + "\n" + fold(s.Exercise)
		g, known := place[key]
		if i > 0 && (otherSide(r.Sets[i-1], s) || !known && shorterName(r.Sets[i-1], s)) {
			g, known = last, true
		} else if again := roundAgain(r, out, last, i); !known && again >= 0 {
			g, known = again, true
		} else if s.Exercise == "" {
			g, known = last, last >= 0 && out[last].key == key && sameDose(r.Sets[i-1].Prescribed, s.Prescribed)
		}
		if !known {
			g = len(out)
			out = append(out, group{key: key})
			if s.Exercise != "" {
				place[key] = g
			}
		}
		out[g].sets = append(out[g].sets, i)
		last = g
	}
	return out
}

// otherSide says whether set b does on one side what set a did on the other: names that differ in a misheard or a missing word
// are one, names that share a word or two, such as "stand", are not.
func otherSide(a, b analyze.Set) bool {
	opposite := a.Side == "left" && b.Side == "right" || a.Side == "right" && b.Side == "left"
	named := a.Exercise != "" && fold(a.Exercise) == fold(b.Exercise) // then one of the two phases is a mistake
	if !opposite || a.Phase != b.Phase && !named || a.Prescribed != nil && b.Prescribed != nil && !sameDose(a.Prescribed, b.Prescribed) {
		return false
	}
	if a.Exercise == "" || b.Exercise == "" {
		return true
	}
	shared, inA, inB := compareNames(a.Exercise, b.Exercise)
	return 2*shared > min(inA, inB)
}

// shorterName says whether set b, right after set a, goes on with its exercise under a shorter or a fuller name: "heel raises"
// after "single leg heel raises", on sides in the same way and with the same dose, if any.
func shorterName(a, b analyze.Set) bool {
	shared, inA, inB := compareNames(a.Exercise, b.Exercise)
	return shared > 0 && shared == min(inA, inB) && a.Phase == b.Phase && (sideKey(a.Side) == "both") == (sideKey(b.Side) == "both") &&
		(a.Prescribed == nil || b.Prescribed == nil || sameDose(a.Prescribed, b.Prescribed))
}

// roundAgain returns the group that set i goes on with in another round of a circuit under a shorter or a fuller name: it
// came after the same exercise in an earlier round, on sides in the same way. It is -1 for none. last is the group of set i-1.
func roundAgain(r *analyze.Report, gs []group, last, i int) int {
	if last < 0 || r.Sets[i].Exercise == "" {
		return -1
	}
	mine := map[int]bool{}
	for _, j := range gs[last].sets {
		mine[j] = true
	}
	for g, x := range gs {
		first := x.sets[0]
		a, b := r.Sets[first], r.Sets[i]
		shared, inA, inB := compareNames(a.Exercise, b.Exercise)
		if g != last && first > 0 && mine[first-1] && !mine[first] && shared > 0 && shared == min(inA, inB) &&
			a.Phase == b.Phase && (sideKey(a.Side) == "both") == (sideKey(b.Side) == "both") {
			return g
		}
	}
	return -1
}

// compareNames counts the words that two names share, and the words of each.
func compareNames(a, b string) (shared, inA, inB int) {
	has := map[string]bool{}
	for _, w := range strings.Fields(fold(a)) {
		has[w] = true
	}
	words := strings.Fields(fold(b))
	for _, w := range words {
		if has[w] {
			shared++
		}
	}
	return shared, len(has), len(words)
}

// fold makes a name comparable: "Heel raise" and "heel raises" are one exercise.
func fold(name string) string {
	words := strings.Fields(strings.ToLower(name))
	for i, w := range words {
		if stem := strings.TrimSuffix(w, "es"); strings.HasSuffix(stem, "ss") || strings.HasSuffix(stem, "ch") || strings.HasSuffix(stem, "sh") {
			words[i] = stem
		} else if len(w) > 3 && !strings.HasSuffix(w, "ss") {
			words[i] = strings.TrimSuffix(w, "s")
		}
	}
	return strings.Join(words, " ")
}

func sameDose(a, b *analyze.Dose) bool {
	return a == nil && b == nil || a != nil && b != nil && *a == *b
}

func exercises(r *analyze.Report) []Exercise {
	out := []Exercise{}
	gs := groups(r)
	options := optionsOf(r, gs)
	unclear := unclearDoses(r, false)
	for i, g := range gs {
		first := r.Sets[g.sets[0]]
		e := Exercise{
			Name: nameOf(r, g), Phase: first.Phase, Start: first.Start,
			Side: sideOf(r, g), Sets: doses(r, g), Options: options[i], at: first.Start,
		}
		e.Rest, e.between = restOf(r, g)
		if first.PrescribedAt != nil {
			e.at = *first.PrescribedAt
		}
		rounds := map[string]int{}
		for _, j := range g.sets {
			e.unclear = e.unclear || unclear[r.Sets[j].ID]
			side := sideKey(r.Sets[j].Side)
			rounds[side]++
			if off := differs(r, &r.Sets[j]); off != "" {
				if len(e.Sets) > 1 {
					off += fmt.Sprintf(" in set %d", rounds[side])
				}
				e.differs = append(e.differs, off)
			}
			if p := r.Sets[j].Performed; p.Reps != nil {
				e.done = append(e.done, *p.Reps)
			} else if p.Seconds != nil {
				e.lasted = append(e.lasted, *p.Seconds)
			}
		}
		out = append(out, e)
	}
	return out
}

// differs says what was done in a set that surely went off what was announced: "11 on the left"; empty where it did not.
func differs(r *analyze.Report, s *analyze.Set) string {
	for _, f := range r.Findings {
		if f.Set != s.ID || !doseKinds[f.Kind] || f.Cause != "session" || !likelyEnough(f) {
			continue
		}
		done := s.Performed
		text := ""
		switch {
		case done.Reps != nil && done.RepsLow != nil && done.RepsHigh != nil && *done.RepsLow == *done.RepsHigh:
			text = fmt.Sprint(*done.Reps)
		case done.Seconds != nil:
			text = wording{}.of(int(math.Round(*done.Seconds)), "second", "s")
		}
		if text != "" && sideKey(s.Side) != "both" {
			text += " on the " + s.Side
		}
		return text
	}
	return ""
}

// blank says whether the therapist has to fill in an exercise's dose.
func (e Exercise) blank() bool {
	return e.unclear || !slices.ContainsFunc(e.Sets, func(d Dose) bool { return d != (Dose{}) })
}

// nameOf returns the name that the most sets of a group bear; of equals the first. It is
// empty where none has a name.
func nameOf(r *analyze.Report, g group) string {
	sets := map[string]int{} // of each folded name
	for _, i := range g.sets {
		sets[fold(r.Sets[i].Exercise)]++
	}
	best := ""
	for _, i := range g.sets {
		name := r.Sets[i].Exercise
		if name == "" {
			continue
		}
		if best == "" || sets[fold(name)] > sets[fold(best)] {
			best = name
		}
	}
	return best
}

// sideOf returns the side that a group works: "each" where left and right have sets of their own.
func sideOf(r *analyze.Report, g group) string {
	has := map[string]bool{}
	for _, i := range g.sets {
		has[r.Sets[i].Side] = true
	}
	switch {
	case has["left"] && has["right"]:
		return "each"
	case has["both"] || has[""]:
		return ""
	}
	return r.Sets[g.sets[0]].Side
}

// doses returns the announced doses of a group: the n-th left and the n-th right set are one.
func doses(r *analyze.Report, g group) []Dose {
	out := []Dose{}
	n := map[string]int{}
	for _, i := range g.sets {
		s := r.Sets[i]
		k := n[sideKey(s.Side)]
		n[sideKey(s.Side)]++
		if k == len(out) {
			out = append(out, Dose{})
		}
		if s.Prescribed != nil && out[k] == (Dose{}) {
			out[k] = Dose{Reps: s.Prescribed.Reps, Seconds: s.Prescribed.Seconds}
		}
	}
	return out
}

func sideKey(side string) string {
	if side == "left" || side == "right" {
		return side
	}
	return "both"
}

// restOf returns the first rest announced between sets of the group, or else the first announced after one of them. It is 0
// where none was announced.
func restOf(r *analyze.Report, g group) (seconds float64, between bool) {
	mine := map[int]bool{}
	for _, i := range g.sets {
		mine[i] = true
	}
	for _, rest := range r.Rests {
		if rest.Prescribed == nil {
			continue
		}
		before, after := around(r, rest.Start)
		switch {
		case mine[before] && mine[after]:
			return *rest.Prescribed, true
		case mine[before] && seconds == 0:
			seconds = *rest.Prescribed
		}
	}
	return seconds, false
}

// around returns the sets that stand before and after a time between sets; -1 for none.
func around(r *analyze.Report, at float64) (before, after int) {
	before, after = -1, -1
	for i, s := range r.Sets {
		switch middle := (s.Start + s.End) / 2; {
		case middle <= at:
			before = i
		case after < 0:
			after = i
		}
	}
	return before, after
}

// optionsOf gives each option that was said to the exercise it was said in. One said between two exercises belongs to the
// nearer; one said more than a minute before the first set belongs to none.
func optionsOf(r *analyze.Report, gs []group) [][]Quote {
	out := make([][]Quote, len(gs))
	owner := make([]int, len(r.Sets))
	for i, g := range gs {
		out[i] = []Quote{}
		for _, j := range g.sets {
			owner[j] = i
		}
	}
	for _, o := range r.Session.Options {
		best, distance := -1, 60.0
		for i, s := range r.Sets {
			d := math.Max(0, math.Max(s.Start-o.At, o.At-s.End))
			if d < distance {
				best, distance = i, d
			}
		}
		if best >= 0 {
			out[owner[best]] = append(out[owner[best]], Quote{Text: o.Text, At: o.At})
		}
	}
	return out
}
