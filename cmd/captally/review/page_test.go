package review

import (
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"captally.example/captally/analyze"
	"captally.example/captally/analyze/settle"
	"captally.example/captally/cmd/captally/event"
	"captally.example/captally/notes"
)

func TestMomentsAsTyped(t *testing.T) {
	for in, want := range map[string]float64{"12:40": 760, "0:07": 7, "1:02:03": 3723, " 12:40.5 ": 760.5, "90:00": 5400,
		"": -1, "760": -1, "12:60": -1, "12:": -1, ":40": -1, "a:b": -1, "-1:30": -1, "1:-3": -1, "1.5:30": -1, "1:2:3:4": -1, "NaN:1": -1, "1:61:00": -1} {
		got, err := moment(in)
		if want < 0 {
			if err == nil {
				t.Errorf("%q is read as %v, want an error", in, got)
			}
		} else if err != nil || got != want {
			t.Errorf("%q is read as %v (%v), want %v", in, got, err, want)
		}
	}
	for _, s := range []float64{0, 0.04, 7, 59.96, 60, 599.95, 760.3, 3723.9} { // what the form shows can be sent back
		got, err := moment(tenths(s))
		if err != nil || got < s-0.051 || got > s+0.051 {
			t.Errorf("%v is shown as %q and read as %v (%v)", s, tenths(s), got, err)
		}
	}
}

func TestOrder(t *testing.T) {
	f := func(kind, cause string, p float64) analyze.Finding {
		return analyze.Finding{Kind: kind, Cause: cause, Probability: p}
	}
	inOrder := []analyze.Finding{f("count-short", "session", 0.95), f("count-skipped", "session", 0.95), f("rest-short", "session", 0.9),
		f("rest-over", "session", 0.96), f("count-lost", "captions", 0.9), f("caption-doubled", "captions", 0.99), f("caption-doubled", "captions", 0.5)}
	for i := 1; i < len(inOrder); i++ {
		if a, b := event.Matters(inOrder[i-1]), event.Matters(inOrder[i]); a <= b {
			t.Errorf("%v (%.2f) should come before %v (%.2f)", inOrder[i-1], a, inOrder[i], b)
		}
	}
}

func TestTheWarmUpMattersLess(t *testing.T) {
	r := &analyze.Report{Sets: []analyze.Set{{ID: "s1", Phase: "warm-up"}, {ID: "s2", Phase: "work"}}}
	in := func(set string) judged {
		return judged{Finding: analyze.Finding{Kind: "count-skipped", Set: set, Cause: "session", Probability: 0.9}}
	}
	if a, b := weight(r, in("s1")), weight(r, in("s2")); a >= b || a <= 0 {
		t.Errorf("in the warm-up it weighs %v, in the work %v", a, b)
	}
	short := in("s2")
	short.follow = []analyze.Finding{{Kind: "count-short", Set: "s2", Cause: "session", Probability: 0.95}}
	if a, b := weight(r, short), weight(r, in("s2")); a <= b {
		t.Errorf("with what follows it weighs %v, alone %v", a, b)
	}
}

func TestEveryKindHasItsWeightAndWords(t *testing.T) {
	var schema struct {
		Properties struct {
			Findings struct {
				Items struct {
					Properties struct{ Kind struct{ Enum []string } }
				}
			}
		}
	}
	if err := json.Unmarshal(analyze.Schema(), &schema); err != nil {
		t.Fatal(err)
	}
	kinds := schema.Properties.Findings.Items.Properties.Kind.Enum
	if len(kinds) < 10 {
		t.Fatalf("only %d kinds were found in the schema", len(kinds))
	}
	for _, k := range kinds {
		if settle.InWords(k) == k {
			t.Errorf("%s has no words", k)
		}
		if advice(analyze.Finding{Kind: k, Cause: "session"}) == "" {
			t.Errorf("%s has no advice", k)
		}
	}
}

func TestRich(t *testing.T) {
	got := rich("Knees & hips\n\nYou need:\n- A <chair>.\n- A towel.\n  Rolled up.\n\nGood luck.\n")
	want := "<p>Knees &amp; hips</p>\n<h3>You need:</h3>\n<ul>\n<li>A &lt;chair&gt;.</li>\n<li>A towel.</li>\n<li>Rolled up.</li>\n</ul>\n<p>Good luck.</p>\n"
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestBareName(t *testing.T) {
	for in, want := range map[string]string{"a.srt": "a.srt", "/etc/passwd": "passwd", `..\..\x.vtt`: "x.vtt", "": "dropped captions", "../": "dropped captions"} {
		if got := bareName(in); got != want {
			t.Errorf("%q becomes %q, want %q", in, got, want)
		}
	}
}

// A change of several things of one set names the set each time as it is by then.
func TestChangesNameTheSetAsItIsByThen(t *testing.T) {
	seven := 7
	s := analyze.Set{Start: 10, End: 30, Exercise: "heel races", Performed: analyze.Performed{Reps: &seven}}
	got, err := changes(s, *settle.SetOf(s), map[string]string{"exercise": "heel raises", "everywhere": "all", "side": "left", "dose": "8", "unit": "reps", "done": "8", "start": "0:09.5", "end": "0:31"})
	if err != nil {
		t.Fatal(err)
	}
	before, named, moved := &settle.SetRef{Start: 10, End: 30, Exercise: "heel races"}, &settle.SetRef{Start: 10, End: 30, Exercise: "heel raises"}, &settle.SetRef{Start: 9.5, End: 30, Exercise: "heel raises"}
	want := []settle.Decision{
		{Kind: settle.Side, Set: before, Side: "left"},
		{Kind: settle.Dose, Set: before, Reps: 8},
		{Kind: settle.Name, Set: before, Name: "heel raises", Everywhere: true},
		{Kind: settle.Edge, Set: named, Edge: "start", At: 9.5},
		{Kind: settle.Edge, Set: moved, Edge: "end", At: 31},
		{Kind: settle.Number, Set: &settle.SetRef{Start: 9.5, End: 31, Exercise: "heel raises"}, Reps: 8},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v\nwant %+v", got, want)
	}
}

func TestWhatIsTypedWrongIsTold(t *testing.T) {
	seven := 7
	s := analyze.Set{Start: 10, End: 30, Performed: analyze.Performed{Reps: &seven}}
	for what, change := range map[string]map[string]string{
		`"many" is not a number of repetitions`: {"done": "many"}, `"0" is not`: {"done": "0"}, `"9" is not a moment`: {"start": "9"},
		"in repetitions or in seconds": {"dose": "8", "unit": ""}, "nothing was changed": {},
	} {
		if _, err := changes(s, *settle.SetOf(s), change); err == nil || !strings.Contains(err.Error(), what) {
			t.Errorf("%v: %v, want %q", change, err, what)
		}
	}
}

// The page's files are all there, and none names another host.
func TestFilesOfThePage(t *testing.T) {
	_, client, base := served(t, Options{})
	entries, err := files.ReadDir("page")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		resp, err := client.Get(base + "/page/" + e.Name())
		if err != nil {
			t.Fatal(err)
		}
		data, _ := io.ReadAll(resp.Body)
		_ = resp.Body.Close()
		want := map[string]string{".js": "text/javascript; charset=utf-8", ".css": "text/css; charset=utf-8", ".html": "text/html; charset=utf-8"}[filepath.Ext(e.Name())]
		if resp.StatusCode != 200 || resp.Header.Get("Content-Type") != want {
			t.Errorf("%s: %d, %s", e.Name(), resp.StatusCode, resp.Header.Get("Content-Type"))
		}
		for _, bad := range []string{"http://", "https://", "innerHTML", "style=\"", "onclick=\"", "eval("} {
			if strings.Contains(string(data), bad) {
				t.Errorf("%s holds %q", e.Name(), bad)
			}
		}
	}
}

func TestEveryDownload(t *testing.T) {
	s, client, base := served(t, Options{Profile: notes.Profile{}})
	sitting, err := s.desk.take(s.desk.first)
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range downloads(sitting.track) {
		resp, err := client.Get(base + "/api/session/" + sitting.id + "/download/" + d.Form)
		if err != nil {
			t.Fatal(err)
		}
		data, _ := io.ReadAll(resp.Body)
		_ = resp.Body.Close()
		if resp.StatusCode != 200 || len(data) == 0 || !strings.Contains(resp.Header.Get("Content-Disposition"), `attachment; filename=`+d.File) {
			t.Errorf("%s: %d, %d bytes, %s", d.Form, resp.StatusCode, len(data), resp.Header.Get("Content-Disposition"))
		}
	}
	if resp, err := client.Get(base + "/api/session/" + sitting.id + "/download/secrets"); err != nil || resp.StatusCode != http.StatusNotFound {
		t.Errorf("a file that there is not: %v, %v", resp, err)
	}
}

func TestVideoInParts(t *testing.T) {
	video := filepath.Join(t.TempDir(), "film.mp4")
	if err := os.WriteFile(video, []byte("0123456789"), 0o600); err != nil {
		t.Fatal(err)
	}
	_, client, base := served(t, Options{Video: video})
	req, _ := http.NewRequest("GET", base+"/media", nil)
	req.Header.Set("Range", "bytes=3-5")
	resp, err := client.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	if data, _ := io.ReadAll(resp.Body); resp.StatusCode != http.StatusPartialContent || string(data) != "345" {
		t.Errorf("answered with %d, %q", resp.StatusCode, data)
	}
}
