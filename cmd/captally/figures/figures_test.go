package figures

import (
	"testing"

	"captally.example/captally/analyze"
)

func TestFigures(t *testing.T) {
	seven, eight := 7, 8
	for _, c := range []struct{ got, want string }{
		{Clock(760), "12:40"},
		{Minutes(639.7), "10:40"},
		{Seconds(7.94), "7.9 s"},
		{Seconds(9.96), "10 s"}, // never "10.0 s"
		{Seconds(47.4), "47 s"},
		{Seconds(0), ""},
		{Length(analyze.Range{Value: 46.3, Low: 45.2, High: 47.9}), "46 s"},
		{Length(analyze.Range{Value: 7.4, Low: 2.2, High: 13}), "7 s"}, // no more exact than its upper limit
		{Length(analyze.Range{}), ""},
		{Within(45.2, 47.9, "-"), "45-48"},
		{Within(46.1, 46.4, "-"), ""},
		{Within(1.6, 5.2, " to "), "1.6 to 5.2"},
		{Within(2.2, 13, " to "), "2 to 13"},
		{Dose(nil), ""},
		{Dose(&analyze.Dose{Reps: 1}), "1 rep"},
		{Dose(&analyze.Dose{Seconds: 40}), "40 s"},
		{RepsWithin(analyze.Performed{Reps: &seven, RepsLow: &seven, RepsHigh: &eight}, " to "), "7 to 8"},
		{RepsWithin(analyze.Performed{Reps: &seven, RepsLow: &seven, RepsHigh: &seven}, " to "), ""},
		{RepsWithin(analyze.Performed{}, " to "), ""},
		{Percent(1), "over 99%"},
		{Percent(0.001), "under 1%"},
		{Percent(0.934), "93%"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}
