// Package standards checks the whole way from captions to report against published figures. Each check names its source.
package standards

import (
	"fmt"

	"captally.example/captally/segment/numeral"
	"captally.example/captally/tests/spoken"
)

// A Set is one counted set of a class that goes exactly as announced.
type Set struct {
	Exercise string
	Numbers  []int   // as counted aloud
	Reps     int     // as announced
	Pace     float64 // s: a repetition
	Rest     float64 // s: announced and kept after the set; 0 for none
}

// Given is what was given in a set, to hold the report against.
type Given struct{ Start, End float64 }

// Class speaks a class with a warm-up, the sets and a cool-down, and returns when each set took place.
func Class(sets ...Set) (*spoken.Speech, []Given) {
	speech := new(spoken.Speech)
	welcome(speech)
	speech.Say("We start with the warm-up. March on the spot, nice and easy.")
	for _, cue := range []string{"Swing your arms.", "Roll the shoulders back.", "Keep marching.", "And stop there. Now you are warm."} {
		speech.Pause(8)
		speech.Say(cue)
	}
	speech.Pause(3)
	given := work(speech, sets)
	speech.Pause(3)
	speech.Say("Now we cool down. Let your arms hang and breathe in.")
	for _, cue := range []string{"And breathe out.", "Stretch up tall.", "And let go."} {
		speech.Pause(8)
		speech.Say(cue)
	}
	goodbye(speech)
	return speech, given
}

// Bare speaks a class of nothing but the sets, and returns when each took place.
func Bare(sets ...Set) (*spoken.Speech, []Given) {
	speech := new(spoken.Speech)
	welcome(speech)
	given := work(speech, sets)
	goodbye(speech)
	return speech, given
}

func welcome(speech *spoken.Speech) {
	speech.Pause(0.5)
	speech.Say("Hello and welcome to the class. You need a chair and a clear bit of wall.")
	speech.Pause(2)
}

func goodbye(speech *spoken.Speech) {
	speech.Pause(3)
	speech.Say("That is all for today. Thank you for coming and see you next time.")
}

// work speaks the sets.
func work(speech *spoken.Speech, sets []Set) []Given {
	var given []Given
	ready := speech.Now() // from when the next set may start
	for i, s := range sets {
		if i == 0 || sets[i-1].Exercise != s.Exercise {
			speech.Say(fmt.Sprintf("Next come %s. Stand tall and breathe. We do %s of them.", s.Exercise, numeral.Spell(s.Reps)))
		} else {
			speech.Say(fmt.Sprintf("Second set, %s again.", numeral.Spell(s.Reps)))
		}
		// The count starts where the rest ends, the words before it coming just in time.
		const call = "Ready, and go."
		speech.At(max(speech.Now()+1, ready-3*spoken.WordGap), call)
		start := speech.Now()
		gap := s.Pace * float64(s.Reps) / float64(len(s.Numbers))
		end := speech.Count(s.Numbers, gap)
		given = append(given, Given{start, end})
		speech.Pause(0.5)
		if s.Rest > 0 {
			speech.Say(fmt.Sprintf("And rest for %s seconds.", numeral.Spell(int(s.Rest))))
			speech.Pause(1)
			speech.Say("Shake it out.")
			ready = end + s.Rest
		} else {
			speech.Say("And relax. Well done.")
			speech.Pause(2)
			ready = speech.Now()
		}
		if i+1 < len(sets) && s.Rest > 8 {
			speech.At(max(speech.Now(), end+s.Rest-8), "Here we go again.")
		}
	}
	return given
}
