package corpus_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"text/tabwriter"

	"captally.example/captally/analyze"
	"captally.example/captally/corpus"
	"captally.example/captally/notes"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

var each = flag.Bool("each", false, "list every error behind the figures")

// measure is the whole way from a file to its report.
func measure(f corpus.File) (*analyze.Report, error) {
	track, err := caption.Parse(f.Data, f.Name, caption.Options{})
	if err != nil {
		return nil, err
	}
	return analyze.Measure(segment.Decode(track), analyze.Options{}), nil
}

// draft drafts the notes of a report and returns of their public form what is scored.
func draft(report *analyze.Report) (*corpus.Draft, error) {
	public, err := json.Marshal(notes.Draft(report, notes.Profile{}))
	if err != nil {
		return nil, err
	}
	d := new(corpus.Draft)
	return d, json.Unmarshal(public, d)
}

// sets are the sets of sessions that figures are worked out for.
var sets = []struct {
	name string
	read func() []corpus.Session
}{{"sessions", corpus.Sessions}, {"recognised", corpus.Recognised}, {"more", corpus.More}, {"more-recognised", corpus.MoreRecognised}}

func TestFigures(t *testing.T) {
	for _, set := range sets {
		t.Run(set.name, func(t *testing.T) {
			t.Parallel()
			list := set.read()
			reports := map[string]*analyze.Report{} // by file, for the notes
			tallies, err := corpus.Evaluate(list, func(f corpus.File) (*analyze.Report, error) {
				r, err := measure(f)
				reports[f.Name] = r
				return r, err
			})
			if err != nil {
				t.Fatal(err)
			}
			checkFigures(t, tallies, floors[set.name], ceilings[set.name])
			t.Log("\n" + ranges(tallies) + reliability(tallies))

			tallies, err = corpus.EvaluateNotes(list, func(f corpus.File) (*corpus.Draft, error) { return draft(reports[f.Name]) })
			if err != nil {
				t.Fatal(err)
			}
			checkFigures(t, tallies, noteFloors[set.name], nil)
		})
	}
}

// checkFigures prints the figures and holds them against their bounds.
func checkFigures(t *testing.T, tallies []*corpus.Tally, floors, ceilings bounds) {
	t.Log("\n" + table(tallies, floors, ceilings))
	for i, tally := range tallies {
		if *each {
			t.Log("\n" + strings.Join(tally.Errors, "\n"))
		}
		figures := tally.Figures()
		for _, name := range slices.Sorted(maps.Keys(floors)) {
			if got, ok := figures[name]; !ok || got < floors[name][i] {
				t.Errorf("%s timing: %s is %.4f, below its floor of %.4f", tally.Timing, name, got, floors[name][i])
			}
		}
		for _, name := range slices.Sorted(maps.Keys(ceilings)) {
			if got, ok := figures[name]; !ok || got > ceilings[name][i] {
				t.Errorf("%s timing: %s is %.4f, above its ceiling of %.4f", tally.Timing, name, got, ceilings[name][i])
			}
		}
	}
}

// table prints the figures of the three timings side by side, each with its bound.
func table(tallies []*corpus.Tally, floors, ceilings bounds) string {
	return lines(func(w *tabwriter.Writer) {
		fmt.Fprintln(w, "figure\tword\tcue\tblock\tmust be")
		names := map[string]bool{}
		for _, tally := range tallies {
			for _, name := range tally.Figures().Names() {
				names[name] = true
			}
		}
		for _, name := range slices.Sorted(maps.Keys(names)) {
			fmt.Fprint(w, name)
			for _, tally := range tallies {
				if v, ok := tally.Figures()[name]; ok {
					fmt.Fprintf(w, "\t%.3f", v)
				} else {
					fmt.Fprint(w, "\t-")
				}
			}
			bound := ""
			if b, ok := floors[name]; ok {
				bound = fmt.Sprintf("at least %.3g, %.3g, %.3g", b[0], b[1], b[2])
			} else if b, ok := ceilings[name]; ok {
				bound = fmt.Sprintf("at most %.3g, %.3g, %.3g", b[0], b[1], b[2])
			}
			fmt.Fprintf(w, "\t%s\n", bound)
		}
	})
}

// ranges prints how often the stated ranges hold the truth, how often ranges that hold it 9 times in 10 would in so few cases, and what they cost.
func ranges(tallies []*corpus.Tally) string {
	return lines(func(w *tabwriter.Writer) {
		fmt.Fprintln(w, "stated range of\ttiming\tn\tholds the truth\tas meant\tmean width\tinterval score")
		for _, what := range []string{corpus.IntervalReps, corpus.IntervalTension, corpus.IntervalRest} {
			for _, tally := range tallies {
				list := tally.Intervals[what]
				if len(list) == 0 {
					continue
				}
				share, width, score := corpus.Coverage(list)
				low, high := corpus.Honest(len(list))
				fmt.Fprintf(w, "%s\t%s\t%d\t%.0f\t%d to %d\t%.2f\t%.2f\n", what, tally.Timing, len(list), share*float64(len(list)), low, high, width, score)
			}
		}
	})
}

// reliability prints how far the stated causes of findings can be believed.
func reliability(tallies []*corpus.Tally) string {
	return lines(func(w *tabwriter.Writer) {
		fmt.Fprintln(w, "stated cause\ttiming\tn\tstated\tright")
		for _, tally := range tallies {
			bins, ece := corpus.Reliability(tally.Causes)
			for i, b := range bins {
				if b.N > 0 {
					fmt.Fprintf(w, "%.1f to %.1f\t%s\t%d\t%.2f\t%.2f\n", float64(i)/10, float64(i+1)/10, tally.Timing, b.N, b.Stated, b.Right)
				}
			}
			fmt.Fprintf(w, "calibration error\t%s\t%d\t%.3f\t\n", tally.Timing, len(tally.Causes), ece)
		}
	})
}

// lines aligns what write prints.
func lines(write func(*tabwriter.Writer)) string {
	var b strings.Builder
	w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	write(w)
	w.Flush()
	return b.String() + "\n"
}

// BenchmarkFigures reports what the figures of accuracy are beside the time that measuring all files of a set takes.
func BenchmarkFigures(b *testing.B) {
	for _, set := range sets {
		b.Run(set.name, func(b *testing.B) {
			list := set.read()
			var tallies []*corpus.Tally
			for b.Loop() {
				var err error
				if tallies, err = corpus.Evaluate(list, measure); err != nil {
					b.Fatal(err)
				}
			}
			for _, tally := range tallies {
				figures := tally.Figures()
				for name, unit := range map[string]string{"sets F1": "sets-F1", "rests F1": "rests-F1", "reps exact": "reps-exact", "reps MAE (relative)": "reps-MAE",
					"miscount F1": "miscount-F1", "captioner's faults F1": "faults-F1", "phase agreement": "phases", "phase macro F1": "phase-F1"} {
					if v, ok := figures[name]; ok {
						b.ReportMetric(v, tally.Timing.String()+"-"+unit)
					}
				}
			}
		})
	}
}
