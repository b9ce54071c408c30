package segment

import "strings"

// Seconds of a position that is held are counted aloud like repetitions: "stand on one leg ... one, two, three ... ten, and down".

const (
	secondFastest = 0.7 // seconds between counted seconds at least
	secondSlowest = 1.4 // and at most
	leastSeconds  = 6   // of them
	countToWords  = 40  // before the count within which it is said how far it goes
)

// secondsCounted makes timed sets of the counts of seconds: at the beat of seconds, in a position that is only held, or where it was
// announced that the count goes up to its last number. Common practice, no source.
func (p *planner) secondsCounted() {
	var before Dose // what was announced for such a set before
	for i := range p.session.Sets {
		set, s := &p.session.Sets[i], &p.placed[i]
		if !s.run.aloud() || len(s.more) > 0 || s.run.rule.step != 1 || s.run.first().v > 2 || set.Kind != Work && set.Kind != Balance {
			continue
		}
		if set.Pace < secondFastest || set.Pace > secondSlowest || set.LastNumber < leastSeconds {
			continue
		}
		if !p.countsTo(s.first, set.LastNumber) && !(set.Kind == Balance && heldStill(set.Exercise.Text)) {
			continue
		}
		length := set.End.At.Seconds() - set.Start.At.Seconds()
		set.Counted, set.Reps, set.RepsLow, set.RepsHigh, set.Pace, set.Count, set.Slips = false, 0, 0, 0, 0, nil, nil
		set.Performed = Length{length, max(0, length-float64(2*p.clockSD())), length + float64(2*p.clockSD())}
		set.Tension = set.Performed
		if k := p.announcedBefore(s.first, set.LastNumber); k >= 0 {
			set.Announced = Dose{Seconds: float64(set.LastNumber), At: p.track.Words[k].Time.At, First: k, Last: k + 1}
			before = set.Announced
		} else if before.Seconds == float64(set.LastNumber) {
			set.Announced = before
		}
		s.seconds = set.Announced.Seconds
		s.run, set.LastNumber = nil, 0
	}
}

// announcedBefore returns the word shortly before word i that says the number n, -1 for none.
func (x *text) announcedBefore(i, n int) int {
	for k := i - 1; k >= max(0, i-countToWords); k-- {
		if x.w[k].num == n {
			return k
		}
	}
	return -1
}

// countsTo reports whether it is announced before word i that the count goes up to n: "I will count till fifteen".
func (x *text) countsTo(i, n int) bool {
	for k := max(1, i-countToWords); k+1 < i; k++ {
		if f := x.w[k].fold; (f == "to" || f == "till" || f == "until") && x.w[k+1].num == n && countWord[x.w[k-1].fold] {
			return true
		}
	}
	return false
}

var countWord = wordSet("count", "counting", "counts", "up")

// heldStill reports whether the name of an exercise is that of a position which is only held: "one leg stand", "standing on one leg".
func heldStill(name string) bool {
	name = strings.ToLower(name)
	if name == "one leg" || name == "single leg" {
		return true
	}
	words := strings.Fields(name)
	for i, w := range words {
		switch {
		case w == "sit" || w == "to":
			return false
		case standing[w] && (i+1 == len(words) || words[i+1] == "on"), stillWord[w] && i+1 == len(words):
			return true
		}
	}
	return false
}

var (
	standing  = wordSet("stand", "standing")
	stillWord = wordSet("balance", "hold", "plank", "tree", "stork", "flamingo")
)
