package segment

import (
	"fmt"
	"strings"
	"testing"
)

// everySecond is a SubRip file in which each word of counted stands in a cue of its own, so many seconds after the one before, from 14 s on;
// lead stands before them and after a minute and a half the session is over.
func everySecond(lead, counted string, seconds int) string {
	src := "1\n00:00:10,000 --> 00:00:13,500\n" + lead + "\n\n"
	at := 14
	for _, word := range strings.Fields(counted) {
		src += fmt.Sprintf("2\n00:%02d:%02d,000 --> 00:%02d:%02d,400\n%s\n\n", at/60, at%60, at/60, at%60, strings.ReplaceAll(word, "_", " "))
		at += seconds
	}
	return src + "3\n00:03:00,000 --> 00:03:04,000\nThat is all for today, see you soon.\n"
}

// TestOneSet checks which counts in a row are goes of one set.
func TestOneSet(t *testing.T) {
	const four = "one two three four "
	for _, c := range []struct {
		what, lead, counted string
		want                []int
	}{
		{"equal parts of what was announced", "Four of each, so sixteen. And press,", four + four + four + "one two three four", []int{16}},
		{"as many more, on the beat", "Heel raises. And up,", "one two three four five six eight_more_one two three four five six seven eight", []int{14}},
		{"up, then another exercise down", "Bridges, eight of these. And up,", "one two three four five six seven eight stay_up_and_pulse_it_ten ten nine eight seven six five four three two one", []int{8, 10}},
		{"another exercise whose first numbers are lost", "Heel raises, ten of these. And up,", "one two three four five six seven eight nine ten_good_and_now_toes_up ten_again_and_up three four five six seven eight nine ten", []int{10, 10}},
		{"the same again on the way back", "Ten steps along the bench. And go,", "one two three four five six seven eight nine ten_turn_round_and_back_again one two three four five six seven eight nine ten", []int{10, 10}},
	} {
		var got []int
		for _, s := range setsOf(t, everySecond(c.lead, c.counted, 3)) {
			got = append(got, s.Reps)
		}
		if fmt.Sprint(got) != fmt.Sprint(c.want) {
			t.Errorf("%s: sets of %v, want %v", c.what, got, c.want)
		}
	}
}

// TestWrittenTwice checks that numbers which a captioner wrote again after the last one are told as his, and that what is missing after them
// is still looked for.
func TestWrittenTwice(t *testing.T) {
	src := strings.Replace(everySecond("Leg raises, ten. And up,", "one two three four five six seven eight nine", 3), "\nnine\n", "\nnine seven eight nine\n", 1)
	sets := setsOf(t, src)
	if len(sets) != 1 || sets[0].Reps < 9 || sets[0].Reps > 10 {
		t.Fatalf("%+v, want one set of nine or ten", sets)
	}
	for _, s := range sets[0].Slips {
		if s.Kind == Doubled && s.Captions > 0.5 {
			return
		}
	}
	t.Errorf("no number told as written twice: %+v", sets[0].Slips)
}
