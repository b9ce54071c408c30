package segment

import (
	"encoding/json"
	"flag"
	"fmt"
	"go/format"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"sort"
	"strings"
	"sync"
	"testing"
	"time"

	"captally.example/captally/segment/caption"
)

var fitTimed = flag.Bool("fit", false, "fit the weights of timed sets on the labelled sessions and print them")

const fitted = int(startFeatureCount) + int(endFeatureCount) + int(pairSeconds)

// A lesson is one caption file with what is true about its timed sets.
type lesson struct {
	name, session string
	column        int
	words         int
	edges         []edge
	truth         []gold
	free          []bool // by word: timed sets there are neither right nor wrong
	starts        []timedStart
	ends          []timedEnd
	ofStarts      []startFeatures
	ofEnds        []endFeatures
	byFirst       []int // edges, the last first
}

type gold struct{ first, last int }

// An edge is a candidate set.
type edge struct {
	first, last int
	counted     bool
	score       float64 // of a count; of seconds counted aloud
	start, end  int     // its beginning and end among those of the lesson
	f           pairFeatures
	right       float64 // nats that it is like the truth; -Inf for a wrong one
	truth       int     // which set it is closely; -1 for none
	shared      int     // which set it shares two fifths of its time with; -1 for none
}

type truthFile struct {
	Phases []struct {
		Kind  string
		Start float64 `json:"start_s"`
		End   float64 `json:"end_s"`
	}
	Sets []struct {
		Phase     string
		Go        float64 `json:"go_s"`
		Start     float64 `json:"start_s"`
		End       float64 `json:"end_s"`
		Performed struct{ Seconds float64 }
	}
}

func parseTrack(t *testing.T, path string) *caption.Track {
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	tr, err := caption.Parse(b, path, caption.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return tr
}

// trueTimes returns when each word of b was said, from a track with a time on each word, by the longest common subsequence.
func trueTimes(a, b *caption.Track) []float64 {
	n, m := len(a.Words), len(b.Words)
	best := make([][]uint16, n+1)
	for i := range best {
		best[i] = make([]uint16, m+1)
	}
	for i := n - 1; i >= 0; i-- {
		for j := m - 1; j >= 0; j-- {
			if a.Words[i].Fold == b.Words[j].Fold {
				best[i][j] = best[i+1][j+1] + 1
			} else {
				best[i][j] = max(best[i+1][j], best[i][j+1])
			}
		}
	}
	out := make([]float64, m)
	for j := range out {
		out[j] = math.NaN()
	}
	for i, j := 0, 0; i < n && j < m; {
		switch {
		case a.Words[i].Fold == b.Words[j].Fold:
			out[j] = a.Words[i].Time.At.Seconds()
			i++
			j++
		case best[i+1][j] >= best[i][j+1]:
			i++
		default:
			j++
		}
	}
	// between known words, as the file itself spaces them
	last := -1
	for j := 0; j <= m; j++ {
		if j < m && math.IsNaN(out[j]) {
			continue
		}
		for k := last + 1; k < j; k++ {
			t := b.Words[k].Time.At.Seconds()
			switch {
			case last < 0 && j == m:
				out[k] = t
			case last < 0:
				out[k] = math.Min(t, out[j])
			case j == m:
				out[k] = math.Max(t, out[last])
			default:
				share := float64(k-last) / float64(j-last)
				out[k] = out[last] + share*(out[j]-out[last])
				if out[j]-out[last] > 3 {
					out[k] = math.Min(out[j], out[last]+0.4*float64(k-last))
				}
			}
		}
		last = j
	}
	return out
}

func readLesson(t *testing.T, dir, session, style string, word *caption.Track) *lesson {
	tr := word
	if !strings.HasPrefix(style, "word") {
		tr = parseTrack(t, filepath.Join(dir, session+"."+style))
	}
	truth := truthOf(t, dir, session)
	x := newText(tr)
	times := trueTimes(word, tr)
	le := &lesson{name: session + "." + style, session: session, column: x.timedColumn(), words: len(x.w)}
	le.free = make([]bool, len(x.w)+1)
	for i, at := range times {
		for _, p := range truth.Phases {
			if (p.Kind == "warm-up" || p.Kind == "cool-down") && at >= p.Start-2 && at < p.End+2 {
				le.free[i] = true
			}
		}
	}
	runs := x.counts(x.numbers)
	runs = append(runs, x.silentCounts(x.numbers, runs)...)
	var plain []run
	for i := range runs {
		s := x.asStretch(&runs[i])
		if s.score > 0 {
			le.edges = append(le.edges, edge{first: s.first, last: s.last, counted: true, score: s.score, truth: -1})
		}
		if s.score > 3 {
			plain = append(plain, runs[i])
		}
	}
	type span struct{ a, b float64 }
	var golds []span
	for _, s := range truth.Sets {
		switch {
		case s.Performed.Seconds > 0:
			golds = append(golds, span{s.Go, s.End})
		case s.Phase == "work" || s.Phase == "balance":
			// of repetitions that nobody counts, or whose count is lost, a model of counts hears nothing
			heard := false
			for i := range runs {
				r := &runs[i]
				first := r.first().first
				if r.silentFrom > 0 {
					first = r.silentFrom - 1
				}
				a, b := times[first], times[min(r.last().last, len(times)-1)]
				if both := math.Min(b, s.End) - math.Max(a, s.Start); both > 0.25*(s.End-s.Start) && x.asStretch(r).score > 0 {
					heard = true
				}
			}
			if !heard {
				golds = append(golds, span{s.Start, s.End})
			}
		}
	}
	l := x.listen(plain)
	le.starts, le.ends = l.starts, l.ends
	for i := range l.starts {
		_, f := l.startAt(l.starts[i].word)
		le.ofStarts = append(le.ofStarts, f)
	}
	for i := range l.ends {
		_, f := l.endAt(l.ends[i].word, l.ends[i].down)
		le.ofEnds = append(le.ofEnds, f)
	}
	endOf := map[int]int{}
	for i := range l.ends {
		endOf[l.ends[i].word] = i
	}
	for i := range l.starts {
		g := &l.starts[i]
		a := times[g.word-1] + wordLength(&x.w[g.word-1])
		l.each(g, math.Inf(-1), func(e *timedEnd, f *pairFeatures) {
			b := times[e.word]
			if e.down {
				b = math.Min(b, times[e.word-1]+afterCountdown)
			}
			ed := edge{first: g.word, last: e.word, start: i, end: endOf[e.word], score: f[pairSeconds], f: *f, truth: -1, shared: -1, right: math.Inf(-1)}
			for k, s := range golds {
				if both := math.Min(b, s.b) - math.Max(a, s.a); both >= 0.4*(math.Max(b, s.b)-math.Min(a, s.a)) {
					ed.shared = k
				}
				da, db := math.Abs(a-s.a), math.Abs(b-s.b)
				if math.Max(da, db) < math.Max(4, 0.15*(s.b-s.a)) {
					ed.truth = k
					ed.right = -0.5 * (da*da + db*db)
				}
			}
			le.edges = append(le.edges, ed)
		})
	}
	sort.SliceStable(le.edges, func(a, b int) bool { return le.edges[a].last < le.edges[b].last })
	le.byFirst = make([]int, len(le.edges))
	for i := range le.byFirst {
		le.byFirst[i] = i
	}
	sort.SliceStable(le.byFirst, func(a, b int) bool { return le.edges[le.byFirst[a]].first > le.edges[le.byFirst[b]].first })
	for _, s := range golds {
		a := sort.SearchFloat64s(times, s.a-0.2)
		b := sort.SearchFloat64s(times, s.b-0.5)
		le.truth = append(le.truth, gold{a, b})
	}
	le.constrain()
	return le
}

func truthOf(t *testing.T, dir, session string) (out truthFile) {
	b, err := os.ReadFile(filepath.Join(dir, session+".truth.json"))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

func lessons(t *testing.T) []*lesson {
	var out []*lesson
	for _, dir := range []string{"sessions", "more", "recognised", "more-recognised"} {
		dir = filepath.Join("../corpus", dir)
		files, _ := filepath.Glob(filepath.Join(dir, "*.word.vtt"))
		for _, f := range files {
			session := strings.TrimSuffix(filepath.Base(f), ".word.vtt")
			if _, err := os.Stat(filepath.Join(dir, session+".truth.json")); err != nil {
				continue
			}
			word := parseTrack(t, f)
			for _, style := range []string{"word.vtt", "cue.srt", "block.txt"} {
				out = append(out, readLesson(t, dir, session, style, word))
			}
		}
	}
	return out
}

// The parameters: shared ones first, then what each timing adds to them.
type params []float64

func newParams() params { return make(params, (timedColumns+1)*fitted) }

func (p params) column(c int) []float64 {
	out := make([]float64, fitted)
	for i := range out {
		out[i] = p[i] + p[(c+1)*fitted+i]
	}
	return out
}

const (
	priorShared = 0.15 // inverse variance of a shared weight
	priorOwn    = 0.7  // of what a timing adds
	covered     = 60.0
)

// scores returns how much each edge speaks for itself.
func (le *lesson) scores(w []float64) []float64 {
	var tw timedWeights
	copy(tw.start[:], w)
	copy(tw.end[:], w[startFeatureCount:])
	copy(tw.pair[:], w[startFeatureCount+endFeatureCount:])
	starts := make([]float64, len(le.starts))
	for i := range starts {
		starts[i] = tw.ofStart(&le.ofStarts[i])
	}
	ends := make([]float64, len(le.ends))
	for i := range ends {
		ends[i] = tw.ofEnd(&le.ofEnds[i])
	}
	s := make([]float64, len(le.edges))
	for i := range le.edges {
		e := &le.edges[i]
		s[i] = e.score
		if !e.counted {
			s[i] += starts[e.start] + ends[e.end] + tw.ofPair(&e.f)
		}
	}
	return s
}

// learn returns the log likelihood of one lesson and adds its gradient.
func (le *lesson) learn(w, grad []float64) float64 {
	s := le.scores(w)
	c := make([]float64, len(s))
	for i := range le.edges {
		c[i] = s[i] + le.edges[i].right
	}
	zAll, pAll := le.forwardBackward(s)
	zGold, pGold := le.forwardBackward(c)
	starts := make([]float64, len(le.starts))
	ends := make([]float64, len(le.ends))
	for i := range le.edges {
		e := &le.edges[i]
		if d := pGold[i] - pAll[i]; !e.counted && math.Abs(d) > 1e-7 {
			starts[e.start] += d
			ends[e.end] += d
			for k, v := range e.f[:pairSeconds] {
				grad[int(startFeatureCount)+int(endFeatureCount)+k] += d * v
			}
		}
	}
	for i, d := range starts {
		if d != 0 {
			for k, v := range le.ofStarts[i] {
				grad[k] += d * v
			}
		}
	}
	for i, d := range ends {
		if d != 0 {
			for k, v := range le.ofEnds[i] {
				grad[int(startFeatureCount)+k] += d * v
			}
		}
	}
	return zGold - zAll - covered*float64(len(le.truth))
}

// constrain makes the right of each edge say what the truth allows.
func (le *lesson) constrain() {
	for i := range le.edges {
		e := &le.edges[i]
		if e.truth >= 0 && !e.counted {
			e.right += covered
			continue
		}
		e.right = math.Inf(-1)
		if e.counted || le.free[e.first] && le.free[max(e.first, e.last-1)] {
			e.right = 0
		}
		for _, g := range le.truth {
			if e.first < g.last && e.last > g.first {
				e.right = math.Inf(-1)
			}
		}
	}
}

// forwardBackward sums over all choices of edges that do not overlap: the logarithm of the sum, and how often each edge is chosen.
func (le *lesson) forwardBackward(s []float64) (float64, []float64) {
	n := le.words
	alpha := make([]float64, n+2)
	beta := make([]float64, n+2)
	k := 0
	for i := 1; i <= n; i++ {
		k0 := k
		for ; k < len(s) && le.edges[k].last <= i; k++ {
		}
		alpha[i] = alpha[i-1]
		most := alpha[i]
		for j := k0; j < k; j++ {
			most = math.Max(most, alpha[le.edges[j].first]+s[j])
		}
		sum := math.Exp(alpha[i] - most)
		for j := k0; j < k; j++ {
			if v := alpha[le.edges[j].first] + s[j] - most; v > -18 {
				sum += math.Exp(v)
			}
		}
		if k > k0 {
			alpha[i] = most + math.Log(sum)
		}
	}
	k = 0
	for i := n - 1; i >= 0; i-- {
		k0 := k
		for ; k < len(s) && le.edges[le.byFirst[k]].first >= i; k++ {
		}
		beta[i] = beta[i+1]
		most := beta[i]
		for j := k0; j < k; j++ {
			e := le.byFirst[j]
			most = math.Max(most, beta[le.edges[e].last]+s[e])
		}
		sum := math.Exp(beta[i] - most)
		for j := k0; j < k; j++ {
			e := le.byFirst[j]
			if v := beta[le.edges[e].last] + s[e] - most; v > -18 {
				sum += math.Exp(v)
			}
		}
		if k > k0 {
			beta[i] = most + math.Log(sum)
		}
	}
	z := alpha[n]
	p := make([]float64, len(s))
	for i := range s {
		if v := alpha[le.edges[i].first] + s[i] + beta[le.edges[i].last] - z; v > -18 {
			p[i] = math.Exp(v)
		}
	}
	return z, p
}

// fit finds the weights by Adam (Kingma and Ba, 2015, arXiv 1412.6980, algorithm 1), some lessons at a time.
func fit(ls []*lesson, rounds int) params {
	p := newParams()
	m, v := newParams(), newParams()
	const b1, b2, batches = 0.9, 0.99, 12
	step := 0
	for r := range rounds {
		total := 0.0
		for b := range batches {
			var some []*lesson
			for i := (b*7 + r) % batches; i < len(ls); i += batches {
				some = append(some, ls[i])
			}
			like, grad := gradient(some, p)
			total += like
			step++
			rate := 0.1 * math.Min(1, 1.7*(1-float64(r)/float64(rounds)))
			for i := range p {
				prior := priorShared
				if i >= fitted {
					prior = priorOwn
				}
				g := grad[i] - prior*p[i]/batches
				m[i] = b1*m[i] + (1-b1)*g
				v[i] = b2*v[i] + (1-b2)*g*g
				p[i] += rate * m[i] / (1 - math.Pow(b1, float64(step))) / (math.Sqrt(v[i]/(1-math.Pow(b2, float64(step)))) + 1e-8)
			}
		}
		if r%5 == 4 {
			fmt.Printf("round %d: log likelihood %.1f\n", r+1, total)
		}
	}
	return p
}

func gradient(ls []*lesson, p params) (float64, params) {
	grad := newParams()
	like := 0.0
	var mu sync.Mutex
	var wg sync.WaitGroup
	work := make(chan *lesson)
	for range runtime.NumCPU() {
		wg.Add(1)
		go func() {
			defer wg.Done()
			own := newParams()
			sum := 0.0
			for le := range work {
				g := make([]float64, fitted)
				sum += le.learn(p.column(le.column), g)
				for i, d := range g {
					own[i] += d
					own[(le.column+1)*fitted+i] += d
				}
			}
			mu.Lock()
			defer mu.Unlock()
			like += sum
			for i, d := range own {
				grad[i] += d
			}
		}()
	}
	for _, le := range ls {
		work <- le
	}
	close(work)
	wg.Wait()
	return like, grad
}

// A mark is how many timed sets there were, were found, were found closely, and were found where there were none.
type mark struct{ sets, found, close, false int }

func (le *lesson) judge(w []float64, m *mark) {
	var all []stretch
	var ways []way
	for i, s := range le.scores(w) {
		e := &le.edges[i]
		if e.counted {
			all = append(all, stretch{first: e.first, last: e.last, score: s, run: &run{}})
		} else if s > timedUnlikely {
			ways = append(ways, way{e.first, e.last, le.starts[e.start].t, le.ends[e.end].t, s, []length{{seconds: float64(e.truth), weight: float64(e.shared)}}})
		}
	}
	sort.SliceStable(ways, func(a, b int) bool { return ways[a].first < ways[b].first })
	for i := 0; i < len(ways); {
		j := i
		for j < len(ways) && ways[j].first == ways[i].first {
			j++
		}
		all = offer(all, ways, i, j)
		i = j
	}
	m.sets += len(le.truth)
	for _, s := range pick(all) {
		if s.run != nil {
			continue
		}
		if s.said[0].seconds >= 0 {
			m.close++
		}
		if s.said[0].weight >= 0 {
			m.found++
		} else if !le.free[s.first] {
			m.false++
		}
	}
}

var columnNames = [timedColumns]string{"word", "cue", "block", "cue, no punctuation", "block, no punctuation"}

type marks [timedColumns]mark

func (m *marks) print(what string) {
	for c, q := range m {
		fmt.Printf("%s %-22s: %3d sets, found %.3f (closely %.3f), false %d\n", what, columnNames[c], q.sets, float64(q.found)/float64(max(1, q.sets)), float64(q.close)/float64(max(1, q.sets)), q.false)
	}
}

// heldBack returns the sessions that nothing is fitted on, so that what is found in them says what to expect of others.
func heldBack(t *testing.T) []string {
	b, err := os.ReadFile("../corpus/heldback.txt")
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for line := range strings.Lines(string(b)) {
		if line = strings.TrimSpace(line); line != "" && line[0] != '#' {
			out = append(out, line)
		}
	}
	return out
}

func TestFitTimed(t *testing.T) {
	if !*fitTimed {
		t.Skip("fits the weights of timed sets: run with -fit")
	}
	var ls, held []*lesson
	names := heldBack(t)
	for _, le := range lessons(t) {
		if slices.Contains(names, le.session) {
			held = append(held, le)
		} else {
			ls = append(ls, le)
		}
	}
	reach := [timedColumns][2]int{}
	for _, le := range ls {
		seen := map[int]bool{}
		for i := range le.edges {
			if e := &le.edges[i]; !e.counted && e.truth >= 0 {
				seen[e.truth] = true
			}
		}
		reach[le.column][0] += len(seen)
		reach[le.column][1] += len(le.truth)
		for k := range le.truth {
			if !seen[k] {
				fmt.Println("out of reach:", le.name, k)
			}
		}
	}
	edges := 0
	for _, le := range ls {
		edges += len(le.edges)
	}
	fmt.Println("within reach:", reach, "files:", len(ls), "edges:", edges, time.Now())
	p := fit(ls, 15)
	var m marks
	for _, le := range ls {
		le.judge(p.column(le.column), &m[le.column])
	}
	m.print("seen")
	m = marks{}
	for _, le := range held {
		le.judge(p.column(le.column), &m[le.column])
	}
	m.print("held back")
	writeWeights(t, p)
}

func TestFitTimedHeldOut(t *testing.T) {
	if !*fitTimed {
		t.Skip("fits the weights of timed sets: run with -fit")
	}
	ls := lessons(t)
	const folds = 4
	names := map[string]int{}
	for _, le := range ls {
		if _, ok := names[le.session]; !ok {
			names[le.session] = len(names)
		}
	}
	var m marks
	for k := range folds {
		var train, test []*lesson
		for _, le := range ls {
			if names[le.session]%folds == k {
				test = append(test, le)
			} else {
				train = append(train, le)
			}
		}
		p := fit(train, 12)
		for _, le := range test {
			le.judge(p.column(le.column), &m[le.column])
		}
	}
	m.print("held out")
}

// writeWeights writes the table of weights, a row for each feature.
func writeWeights(t *testing.T, p params) {
	var b strings.Builder
	b.WriteString("package segment\n\n// Code generated by go test ./segment -run FitTimed -fit; DO NOT EDIT.\n\n")
	b.WriteString("// What speaks for a timed set, in nats. Columns: files with a time on each word; on each cue, on each block; on each cue and on\n// each block without punctuation.\n")
	i := 0
	for _, part := range []struct {
		name string
		n    int
	}{{"start", int(startFeatureCount)}, {"end", int(endFeatureCount)}, {"pair", int(pairSeconds)}} {
		names := featureNames(t, part.name)
		fmt.Fprintf(&b, "var %sFitted = [%sFeatureCount][timedColumns]float64{\n", part.name, part.name)
		for k := range part.n {
			fmt.Fprintf(&b, "%s: {", names[k])
			for c := range timedColumns {
				fmt.Fprintf(&b, "%.2f, ", p.column(c)[i])
			}
			b.WriteString("},\n")
			i++
		}
		b.WriteString("}\n\n")
	}
	out, err := format.Source([]byte(b.String()))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile("timedfitted.go", out, 0o644); err != nil {
		t.Fatal(err)
	}
}

// featureNames reads the names of the features of one part from its file, in their order.
func featureNames(t *testing.T, part string) []string {
	b, err := os.ReadFile("timed" + part + ".go")
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	_, list, _ := strings.Cut(string(b), "const (\n\t"+part)
	list, _, _ = strings.Cut(part+list, "\t"+part+"FeatureCount")
	for _, line := range strings.Split(strings.TrimSpace(list), "\n") {
		out = append(out, strings.Fields(line)[0])
	}
	return out
}
