package notes

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// TestLimit: at every limit the description fits or is refused, says what it left out, keeps the exercises and every caution,
// and leaves out nothing that a longer one could keep no more of.
func TestLimit(t *testing.T) {
	for _, g := range goldens(t) {
		n := Draft(g.report, g.profile)
		for name, form := range map[string]func(*Notes) string{"text": Text, "markdown": Markdown} {
			full := utf8.RuneCountInString(form(n))
			before, refused := full, false
			for limit := full; limit > 200; limit -= 23 {
				short, err := Limit(n, limit, form)
				if err != nil {
					refused = true
					continue
				}
				if refused {
					t.Errorf("%s, %s: refused above %d, but not there", g.name, name, limit)
				}
				got := utf8.RuneCountInString(form(short))
				if got > limit || got > before {
					t.Errorf("%s, %s: %d characters within %d, %d before", g.name, name, got, limit, before)
				}
				before = got
				for _, l := range n.Lines {
					kept := l.Part == partTitle || l.Part == partExercises && l.Form == Item || l.Part == partCautions && l.Form == Item
					if kept && !strings.Contains(short.Text, l.Text) {
						t.Errorf("%s, %s: %q is gone at %d", g.name, name, l.Text, limit)
					}
				}
				if last := short.Lines[len(short.Lines)-1]; limit < full && (last.Source != Blank || !strings.HasPrefix(last.Text, "[left out to keep it short: the sources of the warning signs")) {
					t.Errorf("%s, %s: at %d the last line is %q", g.name, name, limit, last.Text)
				}
			}
			if len(g.report.Sets) > 0 && (!refused || before > full*9/10) {
				t.Errorf("%s, %s: %d of %d characters are the least, refused: %v", g.name, name, before, full, refused)
			}
			if text := Text(n); text != n.Text {
				t.Errorf("%s: the notes were changed", g.name)
			}
		}
	}
}
