package author

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// What sampled sessions are made of; common practice, no source.
var (
	sampleExercises = [...]string{"heel raises", "sit to stand", "wall presses", "knee lifts", "bicep curls", "bridges", "side leg raises", "shoulder shrugs", "step ups", "chest presses"}
	sampleIntros    = [...]string{"Next we have %s, %s of them. Stand tall. And go.", "%s now, %s repetitions. Take your time. Ready and", "We go on with %s. I would like %s. Off we go.", "Now %s, %s times. Here we go."}
	sampleSided     = [...]string{"single leg heel raises", "side leg raises", "hamstring curls", "leg slides"}
	sampleHeld      = [...]string{"wall sit", "plank", "single leg stand", "calf stretch"}
	sampleAgain     = [...]string{"Same on the right. And go.", "Other side, the right leg, %s again. Ready and", "Change to the right. Off we go."}
	sampleTalk      = [...]string{"Good work. Shake it out and breathe.", "Well done everybody. Have a sip of water.", "Lovely. Let the shoulders drop and look out of the window.", "That was tidy. Find your feet again."}
	sampleForm      = [...]string{"{chest up}", "{nice and slow}", "{keep breathing}", "{lovely}"}
	sampleNumbers   = [...]string{"", "", "", "", "", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen"}
)

// A Habit is how a sampled therapist and captioner work.
type Habit struct {
	Slips  float64 // share of counts with a number left out or said twice, in [0,1]
	Faults float64 // the captioner's faults on numbers; 1 is usual
	Down   bool    // some counts go down
	Sides  bool    // some exercises are done left, then right
	Held   bool    // some sets are timed
}

// Sample writes the script of a session drawn at random: counted sets of five to fifteen repetitions with rests, in plain words. The
// same seed gives the same script.
func Sample(seed uint64, h Habit) []byte {
	rng := rand.New(rand.NewPCG(seed, 1))
	pick := func(from []string) string { return from[rng.IntN(len(from))] }
	var b strings.Builder
	fmt.Fprintf(&b, "title: Sampled session\nseed: %d\nrate: 2.7\nfaults: %.2f\n\n@talk\nHello and welcome. Today we do some strength work together.\n", seed, h.Faults)
	fmt.Fprintf(&b, "\n@warm-up | lasts 60\nWe warm up first. March on the spot, easy, [..] and roll the shoulders. [..]\n")
	order := rng.Perm(len(sampleExercises))
	for k, e := range order[:4+rng.IntN(3)] {
		if h.Held && k%2 == 1 {
			sampleTimed(&b, rng, sampleHeld[k/2%len(sampleHeld)])
		}
		n := 5 + rng.IntN(11)
		name := sampleExercises[e]
		pace := 1.8 + float64(2*rng.Float64())
		rest := 20 + 10*rng.IntN(4)
		if h.Sides && k%2 == 0 {
			name = sampleSided[k/2%len(sampleSided)]
			again := pick(sampleAgain[:])
			if strings.Contains(again, "%s") {
				again = fmt.Sprintf(again, sampleNumbers[n])
			}
			intro := fmt.Sprintf("Now %s on the left, %s times. Here we go.", name, sampleNumbers[n])
			fmt.Fprintf(&b, "\n@set %s | side left | dose %d | pace %.2f\n%s\n: %s\n", name, n, pace, intro, sampleCount(rng, n, h))
			fmt.Fprintf(&b, "\n@set %s | side right | dose %d | pace %.2f\n%s\n: %s\n", name, n, pace, again, sampleCount(rng, n, h))
		} else {
			fmt.Fprintf(&b, "\n@set %s | dose %d | pace %.2f\n%s\n: %s\n", name, n, pace, upper(fmt.Sprintf(pick(sampleIntros[:]), name, sampleNumbers[n])), sampleCount(rng, n, h))
		}
		fmt.Fprintf(&b, "\n@rest %d | lasts %.1f\nRest for %d seconds. %s [..]\n", rest, float64(rest)+float64(4*rng.NormFloat64()), rest, pick(sampleTalk[:]))
	}
	b.WriteString("\n@cool-down | lasts 60\nNow the cool-down. Slow everything, [..] stretch the arms up and let them float down. [..]\n\n@talk\nThank you for coming. Goodbye.\n")
	return []byte(b.String())
}

// sampleTimed writes a timed set, and the rest after it.
func sampleTimed(b *strings.Builder, rng *rand.Rand, name string) {
	dose := 20 + 10*rng.IntN(3)
	word := map[int]string{20: "twenty", 30: "thirty", 40: "forty"}[dose]
	lasts := float64(dose) + float64(3*rng.NormFloat64())
	fmt.Fprintf(b, "\n@timed %s | dose %d | lasts %.1f\nNow we hold a %s for %s seconds. Ready and go.\n> 5 Keep breathing.\n> %d Ten more seconds.\n", name, dose, lasts, name, word, dose-10)
	fmt.Fprintf(b, "\n@rest 30 | lasts 30\nAnd stop. Rest for thirty seconds. Shake it out. [..]\n")
}

// sampleCount writes a count of n repetitions.
func sampleCount(rng *rand.Rand, n int, h Habit) string {
	if h.Down && rng.IntN(4) == 0 {
		return fmt.Sprintf("%d..1", n)
	}
	odd := 0
	if rng.Float64() < h.Slips {
		odd = 2 + rng.IntN(n-2)
	}
	twice := rng.IntN(2) == 0
	var words []string
	for v := 1; v <= n; v++ {
		if v == odd && !twice {
			continue
		}
		words = append(words, fmt.Sprint(v))
		if v == odd {
			words = append(words, fmt.Sprint(v))
		}
		if v > 1 && v < n && rng.IntN(6) == 0 {
			words = append(words, sampleForm[rng.IntN(len(sampleForm))])
		}
	}
	return strings.Join(words, " ")
}

func upper(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
