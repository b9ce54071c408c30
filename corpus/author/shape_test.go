package author_test

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"captally.example/captally/corpus/author"
)

// seconds reads hours, minutes and seconds with either decimal mark.
func seconds(t *testing.T, clock string) float64 {
	t.Helper()
	f := strings.Split(strings.Replace(clock, ",", ".", 1), ":")
	s := 0.0
	for _, part := range f {
		x, err := strconv.ParseFloat(part, 64)
		if err != nil {
			t.Fatal(err)
		}
		s = float64(s*60) + x
	}
	return s
}

func eachFile(t *testing.T, dir, pattern string, check func(t *testing.T, text string)) {
	names, _ := filepath.Glob(filepath.Join(dir, pattern))
	if len(names) == 0 {
		t.Fatalf("no %s in %s", pattern, dir)
	}
	for _, name := range names {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		t.Run(filepath.Base(name), func(t *testing.T) { check(t, string(b)) })
	}
}

var (
	rollUp = regexp.MustCompile(`^(\S+) --> (\S+) align:start position:0%\n(.*)\n(.*)$`)
	inTime = regexp.MustCompile(`<([\d:.]+)><c> ([^<]+)</c>`)
)

// TestRollUp follows the roll-up captions line by line: each comes under the
// one before, then stands alone for 10 ms, and time never runs back.
func TestRollUp(t *testing.T) {
	eachFile(t, captionsDir, "*.word.vtt", func(t *testing.T, text string) {
		body, ok := strings.CutPrefix(text, "WEBVTT\nKind: captions\nLanguage: en\n\n")
		if !ok {
			t.Fatal("no header")
		}
		above, last := " ", 0.0
		for i, cue := range strings.Split(strings.TrimSuffix(body, "\n\n"), "\n\n") {
			m := rollUp.FindStringSubmatch(cue)
			if m == nil {
				t.Fatalf("cue %d: %q", i+1, cue)
			}
			from, to := seconds(t, m[1]), seconds(t, m[2])
			line := inTime.ReplaceAllString(m[4], " $2")
			standing := i%2 == 1
			switch {
			case m[3] != above && !standing || standing && (m[3] != above || m[4] != " "):
				t.Fatalf("cue %d: %q stands above %q, not %q", i+1, m[3], m[4], above)
			case standing && math.Abs(to-from-0.01) > 0.0011:
				t.Fatalf("cue %d: stands from %v to %v", i+1, from, to)
			case from < last-1e-9 || to < from:
				t.Fatalf("cue %d: from %v to %v after %v", i+1, from, to, last)
			case !standing && (line != strings.ToLower(line) || strings.ContainsAny(line, ".,?!<") || len(line) > 40):
				t.Fatalf("cue %d: %q", i+1, line)
			}
			for _, w := range inTime.FindAllStringSubmatch(m[4], -1) {
				if at := seconds(t, w[1]); at <= from || at > to+1e-9 {
					t.Fatalf("cue %d: %q at %v in %v to %v", i+1, w[2], at, from, to)
				}
			}
			if !standing {
				above = line
			}
			last = to
		}
	})
}

var cue = regexp.MustCompile(`^(\d+)\n(\S+) --> (\S+)\n(.+)$`)

func TestCues(t *testing.T) {
	check := func(t *testing.T, text string) {
		last := 0.0
		for i, c := range strings.Split(strings.TrimSuffix(text, "\n\n"), "\n\n") {
			m := cue.FindStringSubmatch(c)
			if m == nil || m[1] != strconv.Itoa(i+1) {
				t.Fatalf("cue %d: %q", i+1, c)
			}
			from, to := seconds(t, m[2]), seconds(t, m[3])
			if from < last-1e-9 || to <= from {
				t.Fatalf("cue %d: from %v to %v after %v", i+1, from, to, last)
			}
			last = to
		}
	}
	eachFile(t, captionsDir, "*.cue.srt", check)
	eachFile(t, recognisedDir, "*.cue.srt", check)
}

var block = regexp.MustCompile(`^\[(\d+:\d\d)\] (.+)$`)

func TestBlocks(t *testing.T) {
	check := func(t *testing.T, text string) {
		last := -20.0
		for i, b := range strings.Split(strings.TrimSuffix(text, "\n\n"), "\n\n") {
			m := block.FindStringSubmatch(b)
			if m == nil {
				t.Fatalf("block %d: %q", i+1, b)
			}
			at := seconds(t, m[1])
			if at-last < 19 {
				t.Fatalf("block %d at %v, the one before at %v", i+1, at, last)
			}
			last = at
		}
	}
	eachFile(t, captionsDir, "*.block.txt", check)
	eachFile(t, recognisedDir, "*.block.txt", check)
}

// TestRecognised looks for what a recogniser never writes.
func TestRecognised(t *testing.T) {
	times := regexp.MustCompile(`<[\d:.]+>`)
	eachFile(t, recognisedDir, "*.word.vtt", func(t *testing.T, text string) {
		for _, c := range strings.Split(strings.TrimPrefix(text, "WEBVTT\n\n"), "\n\n") {
			_, words, _ := strings.Cut(c, "\n")
			words = times.ReplaceAllString(words, "")
			if strings.ContainsAny(words, ".,?!0123456789-<>") || words != strings.ToLower(words) {
				t.Fatalf("%q", words)
			}
		}
	})
}

// TestHeard asks that the recogniser got about two thirds of the words of talk
// right and nine in ten of the numbers of counts.
func TestHeard(t *testing.T) {
	var right, all [2]float64 // talk, counts
	scripts, _ := filepath.Glob(filepath.Join(captionsDir, "*.script.txt"))
	for _, path := range scripts {
		session := play(t, path)
		heard := heardWords(t, filepath.Join(recognisedDir, session.Truth.ID+".word.vtt"))
		for _, w := range session.Words {
			kind := 0
			if w.Number > 0 {
				kind = 1
			}
			all[kind]++
			text := strings.Trim(strings.ToLower(w.Text), ".,?!")
			for tenth := math.Round(w.At*10) - 3; tenth <= math.Round(w.At*10)+3; tenth++ {
				if heard[tenth] == text {
					right[kind]++
					break
				}
			}
		}
	}
	talk, counts := right[0]/all[0], right[1]/all[1]
	if talk < 0.6 || talk > 0.72 || counts < 0.85 || counts > 0.95 {
		t.Errorf("%.2f of the words of talk right, %.2f of the numbers", talk, counts)
	}
}

func play(t *testing.T, path string) *author.Session {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	s, err := author.Parse(path, bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	session, err := author.Play(path, s)
	if err != nil {
		t.Fatal(err)
	}
	return session
}

// heardWords gives the word that starts in each tenth of a second.
func heardWords(t *testing.T, path string) map[float64]string {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	heard := map[float64]string{}
	starts := regexp.MustCompile(`(?m)^(\S+) --> \S+\n`).ReplaceAllString(string(b), "<$1>")
	for _, m := range regexp.MustCompile(`<([\d:.]+)>([^<\s]+)`).FindAllStringSubmatch(starts, -1) {
		heard[math.Round(seconds(t, m[1])*10)] = m[2]
	}
	return heard
}

// TestNoise compares a script of plain words with its files: word times lie
// about 0.1 s around the truth, cue starts about 0.25 s, and block times below it.
func TestNoise(t *testing.T) {
	var script strings.Builder
	script.WriteString("seed: 3\n@talk\n")
	for range 400 {
		script.WriteString("aaaa. [4]\nbbbb. [4]\n")
	}
	s, err := author.Parse("x", strings.NewReader(script.String()))
	if err != nil {
		t.Fatal(err)
	}
	session, err := author.Play("x", s)
	if err != nil {
		t.Fatal(err)
	}
	files, _, err := author.Render("x", []byte(script.String()))
	if err != nil {
		t.Fatal(err)
	}
	check := func(file string, first *regexp.Regexp, least, most float64) {
		var sum, squares, n float64
		for _, m := range first.FindAllStringSubmatch(file, -1) {
			at, nearest := seconds(t, m[1]), math.Inf(1)
			for _, w := range session.Words {
				if d := at - w.At; math.Abs(d) < math.Abs(nearest) {
					nearest = d
				}
			}
			sum, squares, n = sum+nearest, squares+float64(nearest*nearest), n+1
		}
		sd := math.Sqrt(squares/n - float64(sum/n)*(sum/n))
		if n < 300 || sd < least || sd > most {
			t.Errorf("%v: %v times, sd %.3f s, want %v to %v", first, n, sd, least, most)
		}
	}
	check(string(files[0].Data), regexp.MustCompile(`(?m)^(\S+) --> \S+ align.*\n.+\n\S`), 0.08, 0.12)
	check(string(files[1].Data), regexp.MustCompile(`(?m)^(\S+) --> `), 0.2, 0.3)
	for _, m := range regexp.MustCompile(`(?m)^\[(\S+)\]`).FindAllStringSubmatch(string(files[2].Data), -1) {
		at, ok := seconds(t, m[1]), false
		for _, w := range session.Words {
			ok = ok || at == math.Floor(w.At)
		}
		if !ok {
			t.Errorf("no word starts in the second of block %s", m[1])
		}
	}
}
