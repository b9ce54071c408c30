package settle

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.AssertFormat()
	if err := c.AddResource("decisions.json", doc); err != nil {
		t.Fatal(err)
	}
	out, err := c.Compile("decisions.json")
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// schemaTakes says whether the schema takes a file.
func schemaTakes(t *testing.T, s *jsonschema.Schema, data []byte) error {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return s.Validate(doc)
}

// ofEachKind has a decision of each kind, with all its fields.
func ofEachKind(t *testing.T) *Decisions {
	t.Helper()
	set, start := &SetRef{Start: 10, End: 40.5, Exercise: "heel raise"}, 10.0
	finding := &FindingRef{Kind: "count-short", At: 40.5, Set: &start}
	d := &Decisions{Captions: strings.Repeat("0a", 32), Name: "knee.srt"}
	for _, x := range []Decision{
		{Kind: Said, Finding: finding}, {Kind: Captions, Finding: finding}, {Kind: NotSo, Finding: &FindingRef{Kind: "rest-short", At: 60}},
		{Kind: Number, Set: set, Reps: 9}, {Kind: Number, Set: set, Seconds: 31.5}, {Kind: Name, Set: set, Name: "calf raise", Everywhere: true},
		{Kind: Side, Set: set, Side: "left"}, {Kind: Side, Set: set}, {Kind: Dose, Set: set, Reps: 10}, {Kind: Dose, Set: set, Seconds: 30}, {Kind: Dose, Set: set},
		{Kind: Edge, Set: set, Edge: "end", At: 42}, {Kind: Edge, Phase: &PhaseRef{Kind: "rest", Start: 41, End: 70}, Edge: "start", At: 43},
		{Kind: Merge, Set: set, Together: true}, {Kind: Remove, Set: set}, {Kind: Split, Set: set, At: 25},
		{Kind: Add, Start: 80, End: 95, Name: "<step> ups & downs", Side: "both", In: "balance", Reps: 5}, {Kind: Add, Start: 100, End: 110},
		{Kind: NoteText, Form: "text", Base: "a\n", Text: "b\n"}, {Kind: NoteText, Form: "text"},
	} {
		if err := d.Add(x); err != nil {
			t.Fatal(err)
		}
	}
	return d
}

func TestThereAndBack(t *testing.T) {
	for _, d := range []*Decisions{ofEachKind(t), {}} {
		data := Encode(d)
		got, err := Parse("knee.srt.captally.json", data)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(Encode(got), data) || got.Captions != d.Captions || len(got.Made) != len(d.Made) {
			t.Errorf("written\n%s\nread and written again\n%s", data, Encode(got))
		}
		if err := schemaTakes(t, compiled(t), data); err != nil {
			t.Error(err)
		}
	}
}

// Both the reader and the schema refuse these; the reader says where. The second line holds the fault.
func TestFaults(t *testing.T) {
	s := compiled(t)
	for _, test := range []struct{ made, text string }{
		{`{"id": 1, "kind": "nod"}`, `no kind of decision is called "nod"`},
		{`{"id": 1, "kind": "number", "set": {"start_s": 1, "end_s": 9, "exercise": ""}}`, "repetitions or seconds"},
		{`{"id": 1, "kind": "number", "reps": 4}`, "needs its set"},
		{`{"id": 1, "kind": "said"}`, "needs its finding"},
		{`{"id": 0, "kind": "merge", "set": {"start_s": 1, "end_s": 9, "exercise": ""}}`, "an id of 1 or more"},
		{`{"id": 1, "kind": "merge", "set": {"start_s": -1, "end_s": 9, "exercise": ""}}`, "-1 is no time"},
		{`{"id": 1, "kind": "number", "reps": 1001, "set": {"start_s": 1, "end_s": 9, "exercise": ""}}`, "1001 repetitions"},
		{`{"id": 1, "kind": "side", "side": "up", "set": {"start_s": 1, "end_s": 9, "exercise": ""}}`, `no side is "up"`},
		{`{"id": 1, "kind": "edge", "edge": "middle", "at_s": 4, "set": {"start_s": 1, "end_s": 9, "exercise": ""}}`, `not "middle"`},
		{`{"id": 1, "kind": "edge", "edge": "end", "at_s": 4}`, "a set or a phase"},
		{`{"id": 1, "kind": "name", "set": {"start_s": 1, "end_s": 9, "exercise": ""}}`, "needs the name"},
		{`{"id": 1, "kind": "add", "end_s": 20, "reps": 3, "seconds": 4}`, "not both"},
		{`{"id": 1, "kind": "note-text"}`, "needs the form"},
		{`{"id": 1, "kind": "merge", "set": {"start_s": 1, "end_s": 9, "exercise": "", "mood": 1}}`, `a field "mood" is not known`},
		{`{"id": "1", "kind": "merge", "set": {"start_s": 1, "end_s": 9, "exercise": ""}}`, "cannot be a string"},
	} {
		data := []byte("{\"captally_decisions\": 1, \"captions\": \"\", \"name\": \"\", \"revision\": 1, \"made\": [\n" + test.made + "\n]}")
		if err := schemaTakes(t, s, data); err == nil {
			t.Errorf("the schema takes %s", test.made)
		}
		_, err := Parse("x.json", data)
		var fault *Fault
		if !errors.As(err, &fault) || fault.Line != 2 || !strings.Contains(fault.Text, test.text) {
			t.Errorf("%s: %v, want %q on line 2", test.made, err, test.text)
		}
	}
	for _, test := range []struct{ file, want string }{
		{"", "x.json:1: the file ends too early"},
		{"{}", `x.json:1: no "captally_decisions"`},
		{"{\n\"captally_decisions\": 2, \"moods\": []}", "x.json:2: a file of version 2, of a later captally"},
		{"{\n\"captally_decisions\": -1}", "x.json:2: no version is called -1"},
		{"{\n\"captally_decisions\": 1,\n\"maid\": []}", `x.json:3: a field "maid" is not known`},
		{"{\n\"captally_decisions\": 1,\n\"made\": [}\n", "x.json:3: no JSON"},
		{"{\"captally_decisions\": 1}\n{}", "x.json:2: something follows"},
		{"{\"captally_decisions\": 1, \"made\": [{\"id\": 4, \"kind\": \"note-text\", \"form\": \"text\"},\n{\"id\": 4, \"kind\": \"note-text\", \"form\": \"text\"}]}", "x.json:2: a second decision with the id 4"},
		{"[1,\n2]", "x.json:1: "},
	} {
		if _, err := Parse("x.json", []byte(test.file)); err == nil || !strings.HasPrefix(err.Error(), test.want) {
			t.Errorf("%q: %v, want %q", test.file, err, test.want)
		}
	}
}

func TestUndo(t *testing.T) {
	d := ofEachKind(t)
	n, revision := len(d.Made), d.Revision
	if undone := d.Undo(); len(undone) != 1 || undone[0].ID != n || len(d.Made) != n-1 || d.Revision != revision+1 {
		t.Errorf("%d of %d, revision %d behind %d", len(d.Made), n, d.Revision, revision)
	}
	d.Made[n-2].Together, d.Made[n-3].Together = true, true
	if undone := d.Undo(); len(undone) != 3 || undone[0].ID != n-3 || len(d.Made) != n-4 {
		t.Errorf("of three made at one go %d are undone, and %d of %d are left", len(undone), len(d.Made), n)
	}
	if undone := (&Decisions{}).Undo(); undone != nil {
		t.Errorf("undid %v of nothing", undone)
	}
}

func TestDescribe(t *testing.T) {
	told := map[string]bool{}
	for _, x := range ofEachKind(t).Made {
		text := x.Describe()
		if text == "" || strings.Contains(text, string(x.Kind)+":") || strings.HasSuffix(text, ": ") || strings.Contains(text, "count-") {
			t.Errorf("%s is told as %q", x.Kind, text)
		}
		told[text] = true
	}
	for _, want := range []string{"0:40, fewer repetitions than announced: it is so", "0:40, fewer repetitions than announced: the captioner's mistake",
		"1:00, a short rest: not so", "set at 0:10 of heel raise: 9 repetitions done", "all sets of heel raise: called calf raise",
		"set at 0:10 of heel raise: left side", "set at 0:10 of heel raise: nothing announced", "rest at 0:41: begins at 0:43",
		"set at 0:10 of heel raise: taken out, there was none", "set at 1:20 of <step> ups & downs: added, until 1:35", "notes, text: your own words taken out"} {
		if !told[want] {
			t.Errorf("nothing is told as %q: %v", want, told)
		}
	}
}

func FuzzParse(f *testing.F) {
	f.Add([]byte(`{"captally_decisions": 1, "made": [{"id": 1, "kind": "note-text", "form": "text"}]}`))
	f.Add([]byte("{\"captally_decisions\": 1,\n\"made\": [{]"))
	f.Fuzz(func(t *testing.T, data []byte) {
		d, err := Parse("x", data)
		if err != nil {
			var fault *Fault
			if !errors.As(err, &fault) || fault.Line < 1 || fault.Line > 1+bytes.Count(data, []byte("\n")) {
				t.Errorf("%v is nowhere in the file", err)
			}
			return
		}
		again, err := Parse("x", Encode(d))
		if err != nil {
			t.Fatal(err)
		}
		a, _ := json.Marshal(d)
		if b, _ := json.Marshal(again); !bytes.Equal(a, b) {
			t.Errorf("%s\n%s", a, b)
		}
	})
}
