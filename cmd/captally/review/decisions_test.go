package review

import (
	"bytes"
	"encoding/json"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

// twoSets has two counted sets of one exercise with a rest between them.
const twoSets = "WEBVTT\n\n00:01.000 --> 00:04.000\nHeel races, four of them.\n\n00:05.000 --> 00:06.000\nReady, go.\n\n" +
	"00:08.000 --> 00:09.000\nOne.\n\n00:11.000 --> 00:12.000\nTwo.\n\n00:14.000 --> 00:15.000\nThree.\n\n00:17.000 --> 00:18.000\nFour.\n\n" +
	"00:19.000 --> 00:22.000\nAnd rest for twenty seconds.\n\n00:40.000 --> 00:42.000\nSecond set, ready, go.\n\n" +
	"00:44.000 --> 00:45.000\nOne.\n\n00:47.000 --> 00:48.000\nTwo.\n\n00:50.000 --> 00:51.000\nThree.\n\n00:53.000 --> 00:54.000\nFour.\n\n" +
	"00:56.000 --> 00:59.000\nWell done. That is all for today, goodbye.\n"

// A desk hand asks the page what a browser would ask.
type hand struct {
	t      *testing.T
	client *http.Client
	base   string
	id     string
}

func handOn(t *testing.T, captions string) (*hand, string) {
	t.Helper()
	name := filepath.Join(t.TempDir(), "session.vtt")
	if err := os.WriteFile(name, []byte(captions), 0o600); err != nil {
		t.Fatal(err)
	}
	s, client, base := served(t, Options{File: &File{Name: name, Data: []byte(captions)}})
	return &hand{t, client, base, s.desk.first}, name
}

// ask posts and returns the new state, or what was refused.
func (h *hand) ask(what string, body any) (state, string) {
	h.t.Helper()
	data, err := json.Marshal(body)
	if err != nil {
		h.t.Fatal(err)
	}
	resp, err := h.client.Post(h.base+"/api/session/"+h.id+"/"+what, "application/json", bytes.NewReader(data))
	if err != nil {
		h.t.Fatal(err)
	}
	defer resp.Body.Close()
	var got struct {
		state
		Error string `json:"error"`
	}
	if err := json.NewDecoder(resp.Body).Decode(&got); err != nil {
		h.t.Fatal(err)
	}
	return got.state, got.Error
}

func (h *hand) decide(w map[string]any) state {
	h.t.Helper()
	got, refused := h.ask("decide", w)
	if refused != "" {
		h.t.Fatalf("%v is refused: %s", w, refused)
	}
	return got
}

func (h *hand) now() state {
	h.t.Helper()
	resp, err := h.client.Get(h.base + "/api/session/" + h.id)
	if err != nil {
		h.t.Fatal(err)
	}
	defer resp.Body.Close()
	var got state
	if err := json.NewDecoder(resp.Body).Decode(&got); err != nil {
		h.t.Fatal(err)
	}
	return got
}

func TestEveryFormOfASet(t *testing.T) {
	h, name := handOn(t, twoSets)
	s := h.now()
	if len(s.Sets) != 2 || s.Sets[0].Done != "4 reps" {
		t.Fatalf("the captions are read as %+v", s.Sets)
	}
	if _, err := os.Stat(name + ".captally.json"); err == nil {
		t.Error("looking alone wrote a file")
	}
	s = h.decide(map[string]any{"set": s.Sets[0].Key, "change": map[string]string{"exercise": "heel raises", "everywhere": "all", "side": "left", "dose": "5", "unit": "reps", "done": "5", "start": "0:04.5", "end": "0:18.5"}})
	a, b := s.Sets[0], s.Sets[1]
	if a.Exercise != "heel raises" || b.Exercise != "heel raises" || a.Side != "left" || a.Announced != "5 reps" || a.Done != "5 reps" || a.StartText != "0:04.5" || a.EndText != "0:18.5" {
		t.Errorf("changed into %+v and %+v", a, b)
	}
	if b.Side == "left" || b.Done != "4 reps" {
		t.Errorf("the other set is now %+v", b)
	}
	if !strings.Contains(strings.ToLower(s.Forms[0].Text), "heel raises") {
		t.Errorf("the notes do not follow:\n%s", s.Forms[0].Text)
	}
	s = h.decide(map[string]any{"set": b.Key, "split": "0:49"})
	if len(s.Sets) != 3 {
		t.Fatalf("split into %d sets", len(s.Sets))
	}
	s = h.decide(map[string]any{"set": s.Sets[1].Key, "join": true})
	if len(s.Sets) != 2 || s.Sets[1].Done != "4 reps" {
		t.Errorf("joined into %+v", s.Sets)
	}
	s = h.decide(map[string]any{"add": map[string]string{"exercise": "knee bends", "side": "right", "done": "3", "done_unit": "reps", "dose": "3", "unit": "reps", "start": "0:24", "end": "0:32", "phase": "balance"}})
	if len(s.Sets) != 3 || s.Sets[1].Exercise != "knee bends" || s.Sets[1].Side != "right" || s.Sets[1].Done != "3 reps" || s.Sets[1].Announced != "3 reps" || s.Sets[1].Phase != "balance" {
		t.Errorf("added %+v", s.Sets)
	}
	data, err := os.ReadFile(name + ".captally.json")
	if err != nil || !bytes.Contains(data, []byte("knee bends")) {
		t.Errorf("the file holds %s (%v)", data, err)
	}
	s = h.decide(map[string]any{"set": s.Sets[2].Key, "remove": true})
	if len(s.Sets) != 2 || s.Sets[1].Exercise != "knee bends" || len(s.Phases) == 0 {
		t.Errorf("with the last taken out: %+v", s.Sets)
	}
	s = h.decide(map[string]any{"set": s.Sets[0].Key, "change": map[string]string{"done": "12", "done_unit": "seconds"}})
	if s.Sets[0].Done != "12 s" || s.Sets[0].DoneUnit != "seconds" {
		t.Errorf("done in seconds: %+v", s.Sets[0])
	}
	for s.Undo {
		var refused string
		if s, refused = h.ask("undo", nil); refused != "" {
			t.Fatal(refused)
		}
	}
	if first := h.now(); len(first.Sets) != 2 || first.Sets[0].Exercise != "heel races" || first.Sets[0].Announced != "4 reps" {
		t.Errorf("all undone, it is %+v", first.Sets)
	}
}

// All that one form changed is taken back at one go.
func TestOneFormIsUndoneAtOneGo(t *testing.T) {
	h, _ := handOn(t, twoSets)
	before := h.now().Sets[0]
	s := h.decide(map[string]any{"set": before.Key, "change": map[string]string{"side": "left", "done": "5", "start": "0:06"}})
	if len(s.Changes) != 3 || s.Sets[0].Done != "5 reps" || s.Sets[0].StartText != "0:06.0" {
		t.Fatalf("changed into %+v by %q", s.Sets[0], s.Changes)
	}
	s, refused := h.ask("undo", nil)
	if refused != "" || s.Undo || s.Sets[0].Key != before.Key || s.Sets[0].Done != before.Done {
		t.Errorf("undone into %+v (%s)", s.Sets[0], refused)
	}
	if want := "Taken back: set at 0:05 of heel races: left side; "; !strings.HasPrefix(s.Told, want) {
		t.Errorf("told %q, want %q...", s.Told, want)
	}
}

// What does not fit the session is refused with its reason, and all of what was sent with it.
func TestWhatDoesNotFitIsNotKept(t *testing.T) {
	h, name := handOn(t, twoSets)
	s := h.now()
	for reason, w := range map[string]map[string]any{
		"it would run into the set at 0:4":   {"set": s.Sets[0].Key, "change": map[string]string{"side": "left", "end": "0:50"}},
		"it would run into the set at 0:0":   {"add": map[string]string{"done": "3", "done_unit": "reps", "start": "0:10", "end": "0:24"}},
		"no set follows it":                  {"set": s.Sets[1].Key, "join": true},
		"the recording ends at 0:59":         {"add": map[string]string{"done": "3", "done_unit": "reps", "start": "0:56", "end": "1:24"}},
		"is not within the set":              {"set": s.Sets[0].Key, "split": s.Sets[0].EndText},
		"is not a number of repetitions":     {"set": s.Sets[0].Key, "change": map[string]string{"done": "4.5"}},
		"the set needs a start, and an end ": {"add": map[string]string{"done": "3", "done_unit": "reps", "start": "0:32", "end": "0:24"}},
	} {
		if _, refused := h.ask("decide", w); !strings.Contains(refused, reason) {
			t.Errorf("%v: %q, want %q", w, refused, reason)
		}
	}
	if _, err := os.Stat(name + ".captally.json"); err == nil {
		t.Error("a decision that does not fit left a file")
	}
	if now := h.now(); len(now.Changes)+len(now.Unfit) != 0 {
		t.Errorf("kept: %q, %q", now.Changes, now.Unfit)
	}
}

func TestEdgeOfAPart(t *testing.T) {
	h, _ := handOn(t, twoSets)
	for _, p := range h.now().Phases {
		if p.Kind != "rest" {
			continue
		}
		s := h.decide(map[string]any{"phase": p.Key, "change": map[string]string{"end": "0:35"}})
		for _, q := range s.Phases {
			if q.Kind == "rest" && q.End == 35 {
				return
			}
		}
		t.Fatalf("no rest ends at 0:35 in %+v", s.Phases)
	}
	t.Fatal("no rest was found")
}

func TestWhatIsRefusedChangesNothing(t *testing.T) {
	h, name := handOn(t, twoSets)
	s := h.now()
	for what, w := range map[string]map[string]any{
		"an unknown set":        {"set": "1.000-2.000", "join": true},
		"an unknown finding":    {"finding": "count-short-1.00", "verdict": "said"},
		"a split outside":       {"set": s.Sets[0].Key, "split": "9:00"},
		"no moment":             {"set": s.Sets[0].Key, "change": map[string]string{"start": "soon"}},
		"an unknown side":       {"set": s.Sets[0].Key, "change": map[string]string{"side": "top"}},
		"nothing":               {},
		"an unknown field":      {"delete": true},
		"an end before a start": {"add": map[string]string{"done": "3", "done_unit": "reps", "start": "0:32", "end": "0:24"}},
	} {
		if _, refused := h.ask("decide", w); refused == "" {
			t.Errorf("%s is taken", what)
		}
	}
	if _, err := os.Stat(name + ".captally.json"); err == nil {
		t.Error("a refused decision left a file")
	}
}

// Twenty decisions at once from several pages are all kept.
func TestDecisionsAtOnce(t *testing.T) {
	h, _ := handOn(t, twoSets)
	key := h.now().Sets[0].Key
	var pages sync.WaitGroup
	for i := range 20 {
		pages.Go(func() {
			side := []string{"left", "right"}[i%2]
			if _, refused := h.ask("decide", map[string]any{"set": key, "change": map[string]string{"side": side}}); refused != "" {
				t.Error(refused)
			}
		})
	}
	pages.Wait()
	if n := len(h.now().Changes); n != 20 {
		t.Errorf("%d of 20 decisions are kept", n)
	}
}
