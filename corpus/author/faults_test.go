package author_test

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// TestFaultsShow looks up each fault on numbers in the roll-up file it was
// made in: the wrong word is there, the dropped number is not.
func TestFaultsShow(t *testing.T) {
	seen := map[string]int{}
	names, _ := filepath.Glob(filepath.Join(captionsDir, "*.truth.json"))
	for _, name := range names {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var tr struct {
			Faults struct {
				Word []fault `json:"word"`
			} `json:"caption_faults"`
		}
		if err := json.Unmarshal(b, &tr); err != nil {
			t.Fatal(err)
		}
		words := rollUpWords(t, strings.Replace(name, ".truth.json", ".word.vtt", 1))
		for _, f := range tr.Faults.Word {
			seen[f.Kind]++
			if !f.shows(words) {
				t.Errorf("%s: nothing of this is written: %+v", name, f)
			}
		}
	}
	for _, kind := range []string{"dropped", "misheard", "doubled", "joined", "split"} {
		if seen[kind] == 0 {
			t.Errorf("no number is %s in any roll-up file", kind)
		}
	}
}

type fault struct {
	At      float64 `json:"at_s"`
	Kind    string
	Number  int
	Numbers []int
	As      string
}

// shows tells whether the words near a fault's time are what it says.
func (f fault) shows(words []timedWord) bool {
	var near []string
	within := 0.7
	if f.Kind == "dropped" {
		within = 0.3
	}
	for _, w := range words {
		if math.Abs(w.at-f.At) < within {
			near = append(near, w.text)
		}
	}
	text := " " + strings.Join(near, " ") + " "
	switch f.Kind {
	case "dropped":
		return !strings.Contains(text, " "+strconv.Itoa(f.Number)+" ")
	case "doubled":
		var run []string
		for _, n := range f.Numbers {
			run = append(run, strconv.Itoa(n))
		}
		return strings.Contains(text, " "+strings.Join(run, " ")+" ")
	case "joined":
		return strings.Contains(text, " "+strconv.Itoa(f.Numbers[0])+strconv.Itoa(f.Numbers[1])+" ")
	}
	return strings.Contains(text, " "+f.As+" ")
}

type timedWord struct {
	at   float64
	text string
}

// rollUpWords reads the words of a roll-up file, numbers to thirty as digits.
func rollUpWords(t *testing.T, name string) []timedWord {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	digits := map[string]string{}
	ones := strings.Fields("one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty")
	for i, w := range ones {
		digits[w] = strconv.Itoa(i + 1)
		if i < 9 {
			digits["twenty-"+w] = strconv.Itoa(21 + i)
		}
	}
	digits["thirty"] = "30"
	var words []timedWord
	add := func(at, text string) {
		if d, ok := digits[text]; ok {
			text = d
		}
		words = append(words, timedWord{seconds(t, at), text})
	}
	for _, c := range strings.Split(string(b), "\n\n") {
		m := rollUp.FindStringSubmatch(c)
		if m == nil || m[4] == " " {
			continue
		}
		first, _, _ := strings.Cut(m[4], "<")
		add(m[1], first)
		for _, w := range inTime.FindAllStringSubmatch(m[4], -1) {
			add(w[1], w[2])
		}
	}
	return words
}
