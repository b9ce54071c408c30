package segment

import (
	"fmt"
	"strings"
	"testing"
)

// TestSilentHolds checks that repetitions whose seconds are left to the viewer count like those whose seconds are counted, and that one
// counted there and back is one.
func TestSilentHolds(t *testing.T) {
	const bare = "up_and_lower 2 3 4"
	const held, silent, back = "squeeze 2 3 4 5 and relax %d", "squeeze and hold it and relax %d", "up 2 3 and down 2 3 that's %d"
	for _, c := range []struct {
		what  string
		cycle []string
	}{
		{"all counted", []string{held, held, held, held, held, held}},
		{"every other", []string{held, silent, held, silent, held, silent}},
		{"the first is silent", []string{silent, held, held, silent, silent, held}},
		{"none has a number", []string{bare, bare, bare, bare, bare, bare}},
		{"there and back, some silent", []string{back, back, silent, back, silent, back}},
	} {
		src := "1\n00:00:05,000 --> 00:00:09,000\nQuad sets, six of them.\n\n"
		for i, form := range c.cycle {
			words := strings.Fields(form)
			if strings.Contains(form, "%") {
				words = strings.Fields(fmt.Sprintf(form, i+1))
			}
			for k, word := range words { // eight seconds a repetition, its number after seven
				at := 10000 + 8000*i + 7000*k/(len(words)-1)
				src += fmt.Sprintf("2\n00:%02d:%02d,%03d --> 00:%02d:%02d,%03d\n%s\n\n", at/60000, at/1000%60, at%1000, at/60000, at/1000%60, min(999, at%1000+300), strings.ReplaceAll(word, "_", " "))
			}
		}
		src += "3\n00:01:20,000 --> 00:01:24,000\nAnd rest, thirty seconds.\n"
		sets := setsOf(t, src)
		if len(sets) != 1 || sets[0].Reps != 6 {
			t.Errorf("%s: %d sets, want one of 6: %+v", c.what, len(sets), sets)
		}
	}
}
