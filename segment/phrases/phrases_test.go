package phrases

import (
	"strings"
	"testing"
)

func TestReadErrorsNameTheLine(t *testing.T) {
	for in, want := range map[string]string{
		"1 hello":             "x:1: phrase before any [kind]",
		"[go]\n\ngo on":       `x:3: want a weight above 0 and at most 1 before the phrase, found "go"`,
		"[go]\n1.5 go":        `x:2: want a weight above 0 and at most 1 before the phrase, found "1.5"`,
		"[go]\n0.5 # nothing": "x:2: no words after the weight",
	} {
		if _, err := Read(strings.NewReader(in), "x"); err == nil || err.Error() != want {
			t.Errorf("Read(%q): got %v, want %s", in, err, want)
		}
	}
}

func TestFind(t *testing.T) {
	b, err := Read(strings.NewReader("[stop]\n0.9 that's your <n> # done\n1 that's\n[go]\n0.7 _ we go"), "x")
	if err != nil {
		t.Fatal(err)
	}
	words := strings.Fields("that's your twenty off we go")
	got := b.Find(nil, 0, len(words), func(i int) string { return words[i] }, func(i int) bool { return words[i] == "twenty" })
	if len(got) != 2 || got[0] != (Match{"stop", 0, 1, 1}) || got[1] != (Match{"stop", 0, 3, 0.9}) {
		t.Errorf("at 0: %v", got)
	}
	got = b.Find(nil, 3, len(words), func(i int) string { return words[i] }, func(int) bool { return false })
	if len(got) != 1 || got[0] != (Match{"go", 3, 6, 0.7}) {
		t.Errorf("at 3: %v", got)
	}
}

func TestEnglishLoads(t *testing.T) {
	if len(English().marks) == 0 {
		t.Fatal("no phrases")
	}
}
