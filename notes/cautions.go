package notes

import (
	"fmt"

	"captally.example/captally/analyze"
)

// The published lists of warning signs behind the standing cautions.
const (
	refHospital = "Royal Orthopaedic Hospital NHS, Otago exercises, roh.nhs.uk"
	refBooklet  = "Strength and Balance Home Exercise Programme, healthypeterborough.org.uk"
)

// stopSign comes first; what to do when it does not pass follows it at once.
var stopSign = StandingCaution{"Stop and get help if you feel dizzy, if your chest hurts, or if you are too short of breath to speak.", refHospital}

// otherSigns are the standing cautions that are not urgent.
var otherSigns = [...]StandingCaution{
	{"If a joint or a muscle hurts, stop. Check how you sit or stand, and try again with less. If it still hurts, leave it out.", refBooklet},
	{"Stiff or sore muscles the next day are normal.", refBooklet},
}

// cautions returns what was said, then the profile's own, then the standing warning signs in plain words of the project's
// own, and last that the viewer's own clinician comes first.
func cautions(r *analyze.Report, p Profile) []Caution {
	out := []Caution{}
	for _, q := range r.Session.Cautions {
		at := q.At
		out = append(out, Caution{Text: q.Text, At: &at, Source: Said})
	}
	help := "your local emergency number"
	if p.Emergency != "" {
		help = p.Emergency
	}
	standing := append([]StandingCaution(nil), p.Cautions...)
	standing = append(standing, stopSign, StandingCaution{fmt.Sprintf("If that does not pass soon, call %s.", help), refBooklet})
	standing = append(standing, otherSigns[:]...)
	standing = append(standing, StandingCaution{Text: "This video does not know you. What your own doctor or therapist has told you comes first."})
	for _, c := range standing {
		out = append(out, Caution{Text: c.Text, Source: Standing, Reference: c.Source})
	}
	return out
}
