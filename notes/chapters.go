package notes

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"captally.example/captally/analyze"
)

// The shortest chapter, in seconds, and the fewest that a video player takes. Common practice, no source.
const (
	minChapter    = 10
	fewestChapter = 3
)

// A mark is a place where a chapter could begin.
type mark struct {
	start float64
	title string
	rank  int // where two stand too close, the higher stays
}

const (
	rankTalk = iota
	rankPhase
	rankExercise
)

// chapters returns the chapters of a session: the first at 0, rising, at least ten seconds apart; warm-up, each exercise where
// its first set's phase begins and again where it comes back after another, cool-down, closing words; three or more where
// the recording is long enough. Starts are cut to whole seconds, so that a viewer does not miss the first word.
func chapters(r *analyze.Report) []Chapter {
	marks := append(phaseMarks(r), exerciseMarks(r)...)
	sort.SliceStable(marks, func(i, j int) bool { return marks[i].start < marks[j].start })
	kept := []mark{{0, opening(r), rankTalk}}
	for _, m := range marks {
		m.start = math.Floor(m.start)
		last := &kept[len(kept)-1]
		switch {
		case m.start-last.start >= minChapter:
			if m.rank == rankTalk && r.Source.Duration-m.start < minChapter {
				continue
			}
			kept = append(kept, m)
		case m.rank > last.rank && len(kept) == 1:
			last.title, last.rank = m.title, m.rank
		case m.rank > last.rank:
			*last = m
		case m.rank == last.rank && m.title != last.title:
			last.title += " and " + lower(m.title)
		}
	}
	out := make([]Chapter, len(kept))
	for i, m := range kept {
		out[i] = Chapter{Start: m.start, Title: m.title}
	}
	for len(out) < fewestChapter && divide(&out, r.Source.Duration) {
	}
	return out
}

// divide halves the longest chapter, for a player that takes no fewer than three. It returns false where none is long enough.
func divide(chapters *[]Chapter, duration float64) bool {
	longest, most := 0, 0.0
	for i, c := range *chapters {
		end := duration
		if i+1 < len(*chapters) {
			end = (*chapters)[i+1].Start
		}
		if end-c.Start > most {
			longest, most = i, end-c.Start
		}
	}
	if most < 2*minChapter {
		return false
	}
	c := (*chapters)[longest]
	title := strings.TrimSuffix(c.Title, ", continued") + ", continued"
	*chapters = slices.Insert(*chapters, longest+1, Chapter{Start: math.Ceil(c.Start + most/2), Title: title})
	return true
}

// opening is the title of the first chapter.
func opening(r *analyze.Report) string {
	if len(r.Phases) > 0 && r.Phases[0].Kind == "talk" {
		return "Welcome"
	}
	return "Start"
}

// phaseMarks returns the first warm-up, the first cool-down after the sets, and the words that end the session.
func phaseMarks(r *analyze.Report) []mark {
	var out []mark
	seen := map[string]bool{}
	for i, p := range r.Phases {
		switch {
		case p.Kind == "warm-up" && !seen[p.Kind]:
			out = append(out, mark{p.Start, "Warm-up", rankPhase})
		case p.Kind == "cool-down" && !seen[p.Kind]:
			out = append(out, mark{p.Start, "Cool-down", rankPhase})
		case p.Kind == "talk" && i > 0 && i == len(r.Phases)-1:
			out = append(out, mark{p.Start, "Closing words", rankTalk})
		}
		seen[p.Kind] = true
	}
	return out
}

// exerciseMarks returns a mark for each run of sets of one exercise of work or balance.
func exerciseMarks(r *analyze.Report) []mark {
	var out []mark
	type place struct{ group, set int }
	var order []place
	gs := groups(r)
	for g, x := range gs {
		for _, i := range x.sets {
			order = append(order, place{g, i})
		}
	}
	sort.Slice(order, func(i, j int) bool { return order[i].set < order[j].set })
	rounds := map[int]int{}
	last := -1
	for _, o := range order {
		s := r.Sets[o.set]
		if s.Phase != "work" && s.Phase != "balance" {
			continue
		}
		if o.group != last {
			rounds[o.group]++
			title := exerciseTitle(nameOf(r, gs[o.group]), o.group)
			if n := rounds[o.group]; n > 1 {
				title = fmt.Sprintf("%s, round %d", title, n)
			}
			out = append(out, mark{phaseStart(r, s), title, rankExercise})
		}
		last = o.group
	}
	return out
}

// exerciseTitle is the name of a group for a heading; one that was never named is numbered.
func exerciseTitle(name string, group int) string {
	if name == "" {
		return fmt.Sprintf("Exercise %d", group+1)
	}
	return upper(name)
}

// phaseStart returns the start of the phase that holds most of a set.
func phaseStart(r *analyze.Report, s analyze.Set) float64 {
	start, most := s.Start, 0.0
	for _, p := range r.Phases {
		if p.Kind != s.Phase {
			continue
		}
		if shared := math.Min(p.End, s.End) - math.Max(p.Start, s.Start); shared > most {
			start, most = p.Start, shared
		}
	}
	return start
}
