package main

import (
	"fmt"
	"strings"

	"captally.example/captally/analyze"
	"captally.example/captally/cmd/captally/figures"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// printWhy tells what was believed about a moment: the words with their times, what was going on, what was announced,
// what each number of the count was taken for, and what is odd in it.
func printWhy(out *output, r *reading, at caption.Time) {
	e := explainer{out, r.session, at}
	fmt.Fprintf(out, "%s at %s\n", plain(r.track.Name), at)
	e.words()
	e.phase()
	set := setAt(r.session, at)
	if set >= 0 {
		e.set(&r.session.Sets[set])
	}
	if rest := restAt(r.session, at); rest >= 0 && set < 0 {
		e.rest(&r.session.Rests[rest])
	}
	e.findings(r)
}

type explainer struct {
	out     *output
	session *segment.Session
	at      caption.Time
}

func (e explainer) heading(s string) { fmt.Fprintf(e.out, "\n%s\n", e.out.paint(bold, s)) }

func (e explainer) words() {
	words := e.session.Track.Words
	first, last := wordsAround(words, e.at)
	e.heading("The words around it, and between which times each was begun (9 times in 10)")
	if first == last {
		fmt.Fprintln(e.out, "  none")
		return
	}
	t := table{columns: []column{{title: "began", right: true}, {title: "between", right: true}, {title: "word", shrink: true}, {title: "line", right: true}, {title: "how its time is known"}}}
	before := ""
	for _, w := range words[first:last] {
		how := timeFrom(w.Time.From)
		if w.Doubt > 0 {
			how += fmt.Sprintf("; the recogniser doubts it (%s)", figures.Percent(w.Doubt))
		}
		shown := how
		if how == before {
			shown = "\""
		}
		before = how
		t.add(tenths(w.Time.At), spread(w.Time), w.Text+w.After, fmt.Sprint(w.Line), shown)
	}
	t.print(e.out)
}

func timeFrom(e caption.Evidence) string {
	switch e {
	case caption.OnWord:
		return "the file times the word"
	case caption.WithinCue:
		return "within its caption"
	case caption.WithinBlock:
		return "within a block of the transcript"
	}
	return "guessed"
}

func (e explainer) phase() {
	e.heading("What was going on")
	p := phaseAt(e.session, e.at)
	if p == nil {
		fmt.Fprintln(e.out, "  no phase was found here")
		return
	}
	fmt.Fprintln(e.out, wrap("  ", fmt.Sprintf("%s from %s to %s (%s sure)", phaseName(p), p.Start, p.End, figures.Percent(p.Confidence))))
}

// phaseName says what the participant is doing, in words.
func phaseName(p *segment.Phase) string {
	name := map[segment.Kind]string{
		segment.Talk: "talk, no exercise and no rest owed,", segment.WarmUp: "the warm-up,", segment.Work: "a set,",
		segment.Rest: "a rest,", segment.Balance: "a balance set,", segment.CoolDown: "the cool-down,",
	}[p.Kind]
	if p.Label != "" {
		return name + " " + p.Label + ","
	}
	return name
}

func (e explainer) set(s *segment.Set) {
	e.heading("The set")
	name := s.Exercise.Text
	if name == "" {
		name = "an exercise whose name was not found"
	} else {
		name += fmt.Sprintf(", named at %s", s.Exercise.At)
	}
	if side := s.Side.String(); side != "" {
		name += ", side: " + side
	}
	fmt.Fprintln(e.out, wrap("  ", name))
	fmt.Fprintln(e.out, wrap("  ", fmt.Sprintf("begins at %s (%s), ends at %s (%s)", tenths(s.Start.At), spread(s.Start), tenths(s.End.At), spread(s.End))))
	fmt.Fprintln(e.out, wrap("  ", "announced: "+e.announced(s.Announced)))
	if !s.Counted {
		fmt.Fprintln(e.out, wrap("  ", "done: "+length(analyze.Range(s.Performed))+", timed, not counted"))
		e.timeCues(s.TimeCues)
		return
	}
	performed := fmt.Sprintf("done: %s, 9 times in 10 from %d to %d", figures.Count(s.Reps, "repetition"), s.RepsLow, s.RepsHigh)
	if s.RepsLow == s.RepsHigh {
		performed = fmt.Sprintf("done: %s, without much doubt", figures.Count(s.Reps, "repetition"))
	}
	if s.Pace > 0 {
		performed += fmt.Sprintf("; one each %s", figures.Seconds(s.Pace))
	}
	fmt.Fprintln(e.out, wrap("  ", performed))
	e.count(s)
	e.slips(s)
}

func (e explainer) announced(d segment.Dose) string {
	var what string
	switch {
	case d.Reps > 0:
		what = figures.Count(d.Reps, "repetition")
	case d.Seconds > 0:
		what = figures.Seconds(d.Seconds)
	default:
		return "nothing was found"
	}
	if said := e.quote(d.First, d.Last); said != "" {
		return fmt.Sprintf("%s, said at %s: “%s”", what, d.At, said)
	}
	return fmt.Sprintf("%s, said at %s", what, d.At)
}

// quote returns Track.Words[first:last] as they were written.
func (e explainer) quote(first, last int) string {
	words := e.session.Track.Words
	var parts []string
	for i := max(first, 0); i < min(last, len(words)); i++ {
		parts = append(parts, words[i].Text+words[i].After)
	}
	return strings.Trim(strings.Join(parts, " "), " ,.")
}

func (e explainer) count(s *segment.Set) {
	e.heading("The count, and what each number was taken for")
	t := table{columns: []column{{}, {title: "time", right: true}, {title: "between", right: true}, {title: "number", right: true},
		{title: "repetition", right: true}, {title: "taken for"}, {title: "sure", right: true}}}
	nearest := e.nearestEntry(s.Count)
	for i, n := range s.Count {
		mark, number, rep := "", "-", "-"
		if i == nearest {
			mark = ">"
		}
		if n.Said > 0 {
			number = fmt.Sprint(n.Said)
		}
		if n.Rep > 0 {
			rep = fmt.Sprint(n.Rep)
		}
		t.add(mark, tenths(n.At.At), spread(n.At), number, rep, takenFor(n.Origin), figures.Percent(n.Prob))
	}
	t.print(e.out)
}

// nearestEntry returns the entry of a count that lies nearest to the moment; -1 for an empty count.
func (e explainer) nearestEntry(entries []segment.Number) int {
	best := -1
	for i := range entries {
		if best < 0 || distance(entries[i].At.At, e.at) < distance(entries[best].At.At, e.at) {
			best = i
		}
	}
	return best
}

func distance(a, b caption.Time) caption.Time { return max(a-b, b-a) }

func takenFor(o segment.Origin) string {
	switch o {
	case segment.Heard:
		return "said on a repetition"
	case segment.Inferred:
		return "a repetition in silence"
	case segment.Echo:
		return "said again, no repetition"
	case segment.CaptionRepeat:
		return "written twice by the captions"
	case segment.CaptionMisheard:
		return "written wrongly by the captions"
	}
	return o.String()
}

func (e explainer) slips(s *segment.Set) {
	if len(s.Slips) == 0 {
		return
	}
	e.heading("What is odd in the count, and whose it is")
	for _, slip := range s.Slips {
		text := oddity(slip)
		if said := e.quote(slip.First, slip.Last); said != "" {
			text += fmt.Sprintf(", written “%s”", said)
		}
		text += fmt.Sprintf(": said or done so %s, the captions' mistake %s", figures.Percent(slip.Session), figures.Percent(slip.Captions))
		if unsure := 1 - slip.Session - slip.Captions; unsure >= 0.005 {
			text += ", cannot be told " + figures.Percent(unsure)
		}
		fmt.Fprintln(e.out, wrap("  "+tenths(slip.At.At)+"  ", text))
	}
}

// oddity says what is odd.
func oddity(s segment.Slip) string {
	what := map[segment.SlipKind]string{
		segment.Skipped: "a number is left out", segment.Repeated: "a number comes twice, a repetition each",
		segment.Restarted: "the count jumps back", segment.Jumped: "the count jumps forward",
		segment.Lost: "repetitions go on without a count", segment.Doubled: "numbers stand twice, with no time to do them twice",
		segment.Gap: "a number is missing while the beat goes on", segment.Misheard: "another word stands where a number belongs",
	}[s.Kind]
	switch {
	case s.Said > 0 && s.Expected > 0:
		what += fmt.Sprintf(" (%d where %d was due)", s.Said, s.Expected)
	case s.Expected > 0:
		what += fmt.Sprintf(" (%d was due)", s.Expected)
	}
	return what
}

func (e explainer) rest(p *segment.Pause) {
	e.heading("The rest")
	fmt.Fprintln(e.out, wrap("  ", fmt.Sprintf("begins at %s (%s), ends at %s (%s)", tenths(p.Start.At), spread(p.Start), tenths(p.End.At), spread(p.End))))
	line := "announced: nothing was found"
	if p.Announced > 0 {
		line = fmt.Sprintf("announced: %s, said at %s", figures.Seconds(p.Announced), p.At)
	}
	fmt.Fprintln(e.out, wrap("  ", line))
	fmt.Fprintln(e.out, wrap("  ", "length: "+length(analyze.Range(p.Length))))
	e.timeCues(p.TimeCues)
}

// timeCues lists the remarks on the time that was left.
func (e explainer) timeCues(cues []segment.TimeCue) {
	for _, c := range cues {
		fmt.Fprintln(e.out, wrap("  ", fmt.Sprintf("at %s “%s”: %s left as said, %s really",
			c.At.At, e.quote(c.First, c.Last), figures.Seconds(c.Said), figures.Seconds(c.Actual))))
	}
}

// findings lists the findings that concern the moment: within five seconds of it, or with evidence there.
func (e explainer) findings(r *reading) {
	const near = 5
	at := e.at.Seconds()
	first := true
	for _, f := range r.report.Findings {
		if f.At < at-near || f.At > at+near {
			continue
		}
		if first {
			e.heading("What came of it")
			first = false
		}
		fmt.Fprintln(e.out, wrap(fmt.Sprintf("%5s %8s  ", f.ID, figures.Clock(f.At)), fmt.Sprintf("%s Cause: %s (%s).", f.Text, f.Cause, figures.Percent(f.Probability))))
	}
}

// tenths writes a time with a tenth of a second, "12:40.3".
func tenths(t caption.Time) string {
	ms := int64(t) / 1e6
	sign := ""
	if ms < 0 {
		sign, ms = "-", -ms
	}
	return fmt.Sprintf("%s%s.%d", sign, caption.At(float64(ms/1000)), ms%1000/100)
}

// spread writes the limits of an instant, "12:39.9-12:40.6".
func spread(s caption.Spread) string { return tenths(s.Low) + "-" + tenths(s.High) }
