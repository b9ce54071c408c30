package settle

import (
	"math/rand"
	"strings"
	"testing"
)

func edited(t *testing.T, base, text, draft string) (string, *Clash) {
	t.Helper()
	d := &Decisions{}
	if err := d.Add(Decision{Kind: NoteText, Form: "text", Base: base, Text: text}); err != nil {
		t.Fatal(err)
	}
	return d.EditedText("text", draft)
}

func TestEditedText(t *testing.T) {
	const base = "title\nequipment\nheel raises, 10\nsquats, 8\ncautions\n"
	for _, test := range []struct{ name, text, draft, want string }{
		{"the draft as before", "title\nmine\n", base, "title\nmine\n"},
		{"other lines changed", "My title\nequipment\nheel raises, 10\nsquats, 8\ncautions\n", "title\nequipment\nheel raises, 10\nsquats, 9\ncautions\n",
			"My title\nequipment\nheel raises, 10\nsquats, 9\ncautions\n"},
		{"a line added, another gone", "title\nequipment\nheel raises, 10\nsquats, 8\ncautions\nsee you\n", "title\nheel raises, 10\nsquats, 8\ncautions\n",
			"title\nheel raises, 10\nsquats, 8\ncautions\nsee you\n"},
		{"the same change on both sides", "title\nequipment\nheel raises, 11\nsquats, 8\ncautions\nbye\n", "title\nequipment\nheel raises, 11\nsquats, 8\ncautions\n",
			"title\nequipment\nheel raises, 11\nsquats, 8\ncautions\nbye\n"},
		{"taken back", base, "another draft\n", "another draft\n"},
		{"emptied", "", "another draft\n", "another draft\n"},
	} {
		if got, clash := edited(t, base, test.text, test.draft); got != test.want || clash != nil {
			t.Errorf("%s: %q (%+v), want %q", test.name, got, clash, test.want)
		}
	}
	mine, draft := strings.Replace(base, "raises, 10", "lifts, ten", 1), strings.Replace(base, "raises, 10", "raises, 9", 1)
	if got, clash := edited(t, base, mine, draft); got != mine || clash == nil || clash.Edited != mine || clash.Draft != draft {
		t.Errorf("both changed one line: %q, %+v", got, clash)
	}
	d := &Decisions{}
	_ = d.Add(Decision{Kind: NoteText, Form: "text", Base: base, Text: "mine\n"})
	if got, _ := d.EditedText("markdown", base); got != base {
		t.Errorf("the edit of one form is in another: %q", got)
	}
	_ = d.Add(Decision{Kind: NoteText, Form: "text", Base: base, Text: "mine again\n"})
	if got, _ := d.EditedText("text", base); got != "mine again\n" {
		t.Errorf("the last edit does not count: %q", got)
	}
}

// Merging with what has not changed is the other text; merging is the same both ways; the changes make the one text of the other.
func TestMergedProperties(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	text := func() []string {
		var out []string
		for range r.Intn(8) {
			out = append(out, string(rune('a'+r.Intn(4)))+"\n")
		}
		return out
	}
	merges := 0
	for range 3000 {
		base, a, b := text(), text(), text()
		if got, ok := merged(base, a, base); !ok || got != strings.Join(a, "") {
			t.Fatalf("%q with no other change to %q: %q", base, a, got)
		}
		x, ok := merged(base, a, b)
		y, also := merged(base, b, a)
		if ok != also || x != y {
			t.Fatalf("%q to %q and %q: %q, %q", base, a, b, x, y)
		}
		if ok {
			merges++
		}
	}
	if merges < 100 {
		t.Errorf("only %d merges", merges)
	}
}
