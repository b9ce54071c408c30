package announce_test

import (
	"math"
	"testing"

	"captally.example/captally/corpus"
	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/numeral"
)

// TestCorpus finds what was announced for the sets and rests of the labelled sessions, given where these really are.
// What is asked for lies a few hundredths below what was reached when the figures were set.
func TestCorpus(t *testing.T) {
	for _, c := range []struct {
		name                string
		sessions            []corpus.Session
		doses, rests, sides float64 // least share that must be right
	}{
		{"sessions", corpus.Sessions(), 0.97, 0.96, 0.97},
		{"recognised", corpus.Recognised(), 0.93, 0.86, 0.92},
		{"more", corpus.More(), 0.93, 0.93, 0.89},
	} {
		t.Run(c.name, func(t *testing.T) {
			var doses, rests, sides share
			for _, s := range c.sessions {
				check(t, s, &doses, &rests, &sides)
			}
			t.Logf("right: doses %v, rests %v, sides %v", doses, rests, sides)
			if doses.part() < c.doses || rests.part() < c.rests || sides.part() < c.sides {
				t.Errorf("wanted at least %g of the doses, %g of the rests, %g of the sides", c.doses, c.rests, c.sides)
			}
		})
	}
}

// A share counts how many of how many are right.
type share struct{ right, all int }

func (s *share) add(ok bool) {
	s.all++
	if ok {
		s.right++
	}
}

func (s share) part() float64 { return float64(s.right) / float64(max(s.all, 1)) }

func check(t *testing.T, s corpus.Session, doses, rests, sides *share) {
	t.Helper()
	track, err := caption.Parse(s.Word.Data, s.Word.Name, caption.Options{})
	if err != nil {
		t.Fatal(err)
	}
	sets := trueSets(track, s.Truth)
	pauses := truePauses(track, s.Truth, sets)
	mentions := announce.Find(track)
	for i, g := range announce.Sides(track, sets, mentions) {
		sets[i].Side = g.Side
		want := s.Truth.Sets[i].Side
		ok := g.Side.String() == want || g.Side == announce.Both && want == "alternate" || g.Side == announce.Alternate && want == "both"
		sides.add(ok)
		if !ok {
			t.Logf("%s %s: side %v, want %s", s.Name, s.Truth.Sets[i].ID, g.Side, want)
		}
	}
	for i, d := range announce.Doses(track, sets, mentions) {
		if p := s.Truth.Sets[i].Prescribed; p != nil {
			want := float64(p.Reps) + p.Seconds
			doses.add(d.Value == want)
			if d.Value != want {
				t.Logf("%s %s: dose %g, want %g", s.Name, s.Truth.Sets[i].ID, d.Value, want)
			}
		}
	}
	for i, d := range announce.RestDoses(track, sets, pauses, mentions) {
		want := 0.0
		if p := s.Truth.Rests[i].Prescribed; p != nil {
			want = *p
		}
		rests.add(d.Value == want)
		if d.Value != want {
			t.Logf("%s rest at %.0f s: %g s, want %g s", s.Name, s.Truth.Rests[i].Start, d.Value, want)
		}
	}
}

// trueSets gives the sets of the truth as words of the track.
func trueSets(track *caption.Track, truth *corpus.Truth) []announce.SetSpan {
	var out []announce.SetSpan
	for _, s := range truth.Sets {
		p := announce.SetSpan{Exercise: s.Exercise, Balance: s.Phase == "balance"}
		switch {
		case s.Go != nil:
			p.Timed, p.Seconds, p.First = true, *s.Performed.Seconds, wordAt(track, *s.Go-0.15)
		default:
			p.Count, p.First = *s.Performed.Reps, wordAt(track, s.Start+0.2)
			if s.Pace < 4.5 { // quicker than a hold: the set begins with its first number
				p.First = numberAfter(track, wordAt(track, s.Start+0.5*s.Pace), p.First)
			}
		}
		p.Last = max(p.First+1, wordAt(track, s.End+0.12))
		out = append(out, p)
	}
	return out
}

// numberAfter returns the first number from word i on, or none if there is none close by.
func numberAfter(track *caption.Track, i, none int) int {
	for j := i; j < min(none+12, len(track.Words)); j++ {
		if _, ok := numeral.Single(track.Words[j].Fold); ok {
			return j
		}
	}
	return none
}

func truePauses(track *caption.Track, truth *corpus.Truth, sets []announce.SetSpan) []announce.RestSpan {
	var out []announce.RestSpan
	for _, r := range truth.Rests {
		p := announce.RestSpan{Seconds: r.Actual, Last: wordAt(track, r.End)}
		nearest := math.Inf(1)
		for i, s := range truth.Sets {
			if s.Start < r.Start+1 {
				p.First = sets[i].Last
			} else if s.Start-r.End < nearest {
				nearest, p.Last = s.Start-r.End, sets[i].First
			}
		}
		out = append(out, p)
	}
	return out
}

// wordAt returns the first word that begins at s seconds or later.
func wordAt(track *caption.Track, s float64) int {
	for i := range track.Words {
		if track.Words[i].Time.At.Seconds() >= s {
			return i
		}
	}
	return len(track.Words)
}
