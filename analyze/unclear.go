package analyze

import (
	"fmt"

	"captally.example/captally/segment"
)

// mayBeSeconds says whether an announced number of repetitions may have been one of seconds: a round number of which at most a third was
// counted. Common practice, no source: holds are announced in fives from ten up.
func mayBeSeconds(set *segment.Set) bool {
	want := set.Announced.Reps
	return want >= 10 && want%5 == 0 && 3*set.Reps <= want
}

// unclear tells a counted set whose announced dose may belong to another. Sets for which one announcement stands are one finding: what was
// misread is the announcement.
func (f *finder) unclear(i int, p float64, e collector) {
	set := &f.session.Sets[i]
	x := Finding{
		Kind: "dose-unclear", Cause: causeUnsure, At: at(set.Start.At), Set: setID(i), Probability: p,
	}
	if f.settled.ruling(x) == nil {
		for k := range f.found {
			if first := &f.found[k]; first.unclear != nil && f.session.Sets[first.unclear[0]].Announced == set.Announced {
				first.unclear = append(first.unclear, i)
				first.Also = append(first.Also, setID(i))
				first.Probability = min(first.Probability, round(p))
				first.Text = f.unclearText(first.unclear)
				return
			}
		}
		x.unclear = []int{i}
	}
	x.Text = f.unclearText([]int{i})
	f.add(x, e)
}

// unclearText words the finding of sets that share an announcement.
func (f *finder) unclearText(sets []int) string {
	first, last := &f.session.Sets[sets[0]], &f.session.Sets[sets[len(sets)-1]]
	few, most := first.Reps, first.Reps
	for _, i := range sets {
		few, most = min(few, f.session.Sets[i].Reps), max(most, f.session.Sets[i].Reps)
	}
	var text string
	switch len(sets) {
	case 1:
		text = fmt.Sprintf("The set at %s%s has %s %s", first.Start.At, inSet(first), done(first), unit(first.Reps, "repetition"))
	case 2:
		text = fmt.Sprintf("The sets at %s%s and %s%s have %s", first.Start.At, inSet(first), last.Start.At, inSet(last), fromTo(few, most))
	default:
		text = fmt.Sprintf("The %d sets from %s%s to %s%s have %s", len(sets), first.Start.At, inSet(first), last.Start.At, inSet(last), fromTo(few, most))
	}
	if mayBeSeconds(first) {
		return text + fmt.Sprintf(", and %d was announced: perhaps seconds, or the dose of another set.", first.Announced.Reps)
	}
	seem := "seem"
	if first.Announced.Reps == 1 {
		seem = "seems"
	}
	return text + fmt.Sprintf(" where %d %s to be announced. Perhaps the dose was changed, or meant for another set.", first.Announced.Reps, seem)
}

// fromTo writes the repetitions of several sets: "8 repetitions each", "7 to 8 repetitions".
func fromTo(few, most int) string {
	if few == most {
		return fmt.Sprintf("%d %s each", few, unit(few, "repetition"))
	}
	return fmt.Sprintf("%d to %d repetitions", few, most)
}

// unclearTime is the finding of a timed set that lasts less than half or more than twice what was announced: that was perhaps meant for another.
func unclearTime(i int, set *segment.Set, p float64) Finding {
	return Finding{
		Kind: "dose-unclear", Cause: causeUnsure, At: at(set.Start.At), Set: setID(i), Probability: p,
		Text: fmt.Sprintf("The set at %s%s lasts %s where %s seem to be announced. Perhaps the dose was changed, or meant for another set.",
			set.Start.At, inSet(set), length(set.Performed), seconds(set.Announced.Seconds)),
	}
}
