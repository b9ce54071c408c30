package segment

import (
	"slices"
	"strings"
	"testing"

	"captally.example/captally/segment/caption"
)

func TestLeadingWords(t *testing.T) {
	for _, c := range []struct {
		said   string
		within bool
		want   string
	}{
		{"[0:10] tall now and huff one rest [0:18] and huff two well done [0:26] and huff three now [0:34] and huff four good", false, "huff"},
		{"[0:10] press two three loose twelve [0:16] press two three loose eleven [0:22] press two three loose ten [0:28] press two three loose nine", true, "loose"},
		{"[0:10] now mission one please [1:10] now mission two please [2:10] now mission three please [3:10] now mission four please", false, ""},
		{"[0:10] go to station one now [0:16] go to station two now [0:22] go to station three now [0:28] go to station four now", false, ""},
	} {
		src := strings.ReplaceAll(c.said, " [", "\n[")
		tr, err := caption.Parse([]byte(src+"\n"), "test.txt", caption.Options{})
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for word, leads := range newText(tr).leadingWords(c.within) {
			if leads {
				got = append(got, word)
			}
		}
		slices.Sort(got)
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s: leading words %q, want %q", c.said, got, c.want)
		}
	}
}
