package analyze

import "math"

// A Guidance is one published range. It is shown for comparison only: ranges differ between bodies and between the people
// they are meant for, and none of them is a prescription.
type Guidance struct {
	Name       string  // what it ranges over, e.g. "rest between sets"
	Low, High  float64 // inclusive; High is +Inf for "at least Low"
	Unit       string  // "s", "min", "repetitions", "sets"
	Population string  // whom it is meant for
	Source     string  // authors or body, title or journal, and where
	Year       int     // of publication; 0 where the page bears none
	Mark       string  // how the figures were checked, see the constants
}

// How the figures of a row were checked.
const (
	Verified = "verified" // read in the source itself, its abstract or an official copy
	Restated = "restated" // read where another public page, named in Source, restates them
	Recalled = "recalled" // from memory: to be checked before anyone relies on it
)

// What a row of guidance ranges over.
const (
	onRest        = "rest between sets"
	onReps        = "repetitions a set"
	onSets        = "sets of an exercise"
	onWarmUp      = "warm-up"
	onCoolDown    = "cool-down"
	onStretch     = "stretch hold"
	onOneLegStand = "one-leg stand"
)

const (
	acsm2011 = "Garber CE et al. (ACSM), Med Sci Sports Exerc 43(7):1334-59, doi:10.1249/MSS.0b013e318213fefb; restated at brunnerathleticd.com"
	nsca2019 = "Fragala MS et al. (NSCA), J Strength Cond Res 33(8):2019-52, doi:10.1519/JSC.0000000000003230; restated in a review at unm.edu/~lkravitz"
	aha2014  = "Billinger SA et al. (AHA/ASA), Stroke 45:2532-53, doi:10.1161/STR.0000000000000022; restated in doi:10.1177/1559827616633683, table 2"
	thorax21 = "Thorax 76(3):264-71, table 1, doi:10.1136/thoraxjnl-2020-215281"
	handi    = "RACGP HANDI, Exercise-based rehabilitation for coronary heart disease, racgp.org.au"
	ottawa   = "University of Ottawa Heart Institute, Physical Activity Guide, ottawaheart.ca"
)

// guidance is the table behind Compare and PublishedRanges, in the order in which rows are shown.
var guidance = [...]Guidance{
	{onRest, 120, 180, "s", "adults, strength", acsm2011, 2011, Restated},
	{onRest, 120, 120, "s", "older adults, strength", nsca2019, 2019, Restated},
	{onRest, 30, 60, "s", "adults, muscular endurance", "ACSM figures, restated at exercise.trekeducation.org/2017/07/31/resistance-training", 2017, Restated},

	{onReps, 8, 12, "repetitions", "adults, strength", acsm2011, 2011, Restated},
	{onReps, 15, 20, "repetitions", "adults, muscular endurance", acsm2011, 2011, Restated},
	{onReps, 10, 15, "repetitions", "older or frail adults", "Pollock ML et al. (ACSM), Med Sci Sports Exerc 30(6):975-91; restated at community.plu.edu/~chasega/Exrec.html", 1998, Restated},
	{onReps, 10, 15, "repetitions", "people after a stroke", aha2014, 2014, Restated},
	{onReps, 8, 12, "repetitions", "people with COPD, strength", thorax21, 2021, Verified},
	{onReps, 15, 20, "repetitions", "people with COPD, endurance", thorax21, 2021, Verified},

	{onSets, 2, 4, "sets", "adults, strength", acsm2011, 2011, Restated},
	{onSets, 2, 3, "sets", "older adults, strength", nsca2019, 2019, Restated},
	{onSets, 1, 3, "sets", "people after a stroke", aha2014, 2014, Restated},
	{onSets, 2, 4, "sets", "people with COPD, strength", thorax21, 2021, Verified},

	{onWarmUp, 10, 10, "min", "adults", "NHS inform, Warm-up and cool-down, nhsinform.scot (it says about 10)", 2022, Verified},
	{onWarmUp, 5, 10, "min", "people in cardiac rehabilitation", handi, 0, Verified},
	{onWarmUp, 10, 10, "min", "people with heart disease", ottawa, 0, Verified},
	{onWarmUp, 15, math.Inf(1), "min", "people in cardiac rehabilitation", "Thow M (ed.), Exercise Leadership in Cardiac Rehabilitation, Wiley, ISBN 0-470-01971-9, quoting SIGN 2002 and ACPICR 2003", 2006, Verified},
	{onWarmUp, 1, 2, "min", "older adults at risk of falls, home booklet", "Later Life Training, Strength and Balance Home Exercise Programme, at healthypeterborough.org.uk", 0, Verified},

	{onCoolDown, 5, 10, "min", "people in cardiac rehabilitation", handi, 0, Verified},
	{onCoolDown, 5, 10, "min", "people with heart disease", ottawa, 0, Verified},

	{onStretch, 10, 30, "s", "adults", "Garber CE et al. (ACSM), Med Sci Sports Exerc 43(7):1334-59, doi:10.1249/MSS.0b013e318213fefb; restated at susanlongley.com", 2011, Restated},
	{onStretch, 30, 60, "s", "older adults", "Garber CE et al. (ACSM), Med Sci Sports Exerc 43(7):1334-59, doi:10.1249/MSS.0b013e318213fefb; this band seen restated on one weak page only", 2011, Restated},

	{onOneLegStand, 5, 10, "s", "older adults", "HSE Ireland, Balance exercises, www2.hse.ie/living-well/exercise/indoor-exercises/balance-exercises", 0, Verified},
	{onOneLegStand, 0, 10, "s", "older adults", "US National Institute on Aging, go4life.nia.nih.gov/exercises/stand-one-foot (it says up to 10)", 0, Verified},
}

// PublishedRanges returns the published ranges that a session is compared with, a fresh copy.
func PublishedRanges() []Guidance { return append([]Guidance(nil), guidance[:]...) }
