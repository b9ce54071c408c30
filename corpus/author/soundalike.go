package author

import (
	"math/rand/v2"
	"strings"
)

// alike holds words that sound alike: the first of a line is taken for the others.
const alike = `
right|write ride
left|laughed lift live
leg|lay leak like
legs|lakes eggs
knee|need me
knees|needs niece
heel|heal hill he'll
heels|heals hills
toe|tow to
toes|tows those
foot|put food
feet|fit feed
arm|on aunt
arms|alms aunts
hand|and hen
hands|ants hence
hold|old whole
hip|hit hint
hips|hits hints
raise|rays race
raises|races rays is
lift|left list
down|done town
up|of at
and|in an
in|and
the|a that
a|the
to|the too
of|off a
it|at is
your|you're her
you|the who
we|he
we'll|well will
breath|breast bread
breathe|breed brief
back|bag pack
seat|sheet see
seconds|second sections
second|section seconds
rest|dressed west
chair|share cherry
wall|while war
weight|wait
weights|waits
wrist|risk rest
squeeze|squeezed freeze
reach|rich each
reps|wraps reps
set|said sat
sets|sits says
step|steps stop
stop|stuff shop
stay|say they
stand|stem send
straight|strait state
stretch|stress sketch
slow|low so
slowly|lowly
keep|kit keeps
go|oh ago
good|could get
nice|mice night
again|a gain against
other|another mother
side|sign site
sides|signs size
shoulder|shouldn't older
shoulders|holders soldiers
band|bend and
pull|pool full
push|bush put
elbow|elbows el
last|lost class
more|moor war
minute|minutes many
half|have calf
ready|reading red
neck|next deck
chin|gin shin
chest|test just
bend|band been
bed|bad bet
balance|ballots bounce
muscle|muscles mussel
pain|pane paint
sharp|shop shark
exercise|exercises excise
thigh|tie fly
floor|flaw four
sit|set said
round|around brown
turn|tune ten
press|dress breast
roll|role row
lower|lore low
circle|sock all circles
stairs|stares
time|tie dime
thumb|some from
ball|bowl all
calf|cough half
core|call car
lovely|love lee
well|while will
today|to day
here|hear
hear|here
there|their
whole|hole
some|sum
one|won
two|to
four|for
`

// wrongNumbers are what a poor recogniser takes a number for; it may hear several words.
var wrongNumbers = map[string]string{"one": "won and when", "two": "to too you", "three": "tree free he", "four": "for far",
	"five": "fine i've find", "six": "sheets sex sticks", "seven": "children heaven said_in", "eight": "age hate ate", "nine": "mine no_i_mean line",
	"ten": "then to_me tan", "eleven": "a_lemon lemon", "twelve": "well shelf", "thirteen": "thirty search_mean", "fourteen": "forty for_team",
	"fifteen": "fifty", "sixteen": "sixty six_team", "seventeen": "seventy", "eighteen": "eighty the_team", "nineteen": "ninety",
	"twenty": "plenty when_he", "thirty": "dirty thirteen sir_do", "forty": "fourteen for_he", "fifty": "fifteen", "sixty": "sixteen"}

var alikes = readAlikes()

func readAlikes() map[string][]string {
	m := map[string][]string{}
	for _, l := range strings.Split(strings.TrimSpace(alike), "\n") {
		w, likes, _ := strings.Cut(l, "|")
		m[w] = strings.Fields(likes)
	}
	return m
}

// common are words that a poor recogniser falls back on.
var common = strings.Fields(`about after again all always and any are around as at away bad bag ball bank bar be bear because been
	before bell best better big bit black book both box boy bread bring but buy by call came can car care case catch change church
	city clean clear close cold come could country course cup cut dark day dear did do does dog don't door down draw dress drink drive
	each early east easy eat end even every eye face fact fall family far farm fast father few field find fire first fish five floor
	fly follow food for form found free friend from full game garden gave get girl give glass go gold good great green ground grow
	guess half hand happen hard have he head hear heart heavy help her here high him his hold home hope horse hot hour house how
	ice if in into is it its job just keep kept kind king knew know lady land large last late law lay lead learn leave left less let
	letter life light like line list little live long look lot love low made make man many mark market matter may me mean meet men might
	mile milk mind mine miss money month moon more morning most mother move much must my name near need never new next night no north
	not note nothing now of off office often oil old on once only open or order other our out over own page paper park part party pass
	past pay people perhaps piece place plan plant play please point poor pot power pretty price proper public put queen question quick
	quiet quite rain ran rather read real red rest rich ride ring river road rock room round rule run sad safe said sail salt same
	sand sat save saw say school sea season seat see seem sell send sent set seven shall she ship shoe shop short should show side
	sign silver simple sing sister sit six size sleep slow small smile snow so soft some son song soon sort sound south speak spell
	spend spring stand star start state stay steel step still stone stop store story street strong such sugar summer sun sure sweet
	table take talk tall taste tell than that the their them then there these they thing think this those though thought time to today
	told too took top town train tree true try turn under until up upon us use very village visit voice wait walk wall want war warm
	wash watch water way we weather week well went were west what wheel when where which while white who why wide wife wild will wind
	window winter wish with woman wonder wood word work world would write year yes yet you young your`)

var commonSounds = soundsOf(common)

func soundsOf(words []string) []string {
	var s []string
	for _, w := range words {
		s = append(s, sound(w))
	}
	return s
}

// soundAlike is a word that a captioner might take for this one, with its
// punctuation; the word itself when nothing comes to mind. Only a poor
// recogniser guesses beyond the list of words that sound alike.
func soundAlike(rng *rand.Rand, word string, guess bool) string {
	core := plain(word)
	i := strings.Index(strings.ToLower(word), core)
	if core == "" || i < 0 {
		return word
	}
	head, tail := word[:i], word[i+len(core):]
	var as string
	switch likes := alikes[core]; {
	case len(likes) > 0:
		as = likes[rng.IntN(len(likes))]
	case guess:
		as = nearest(rng, core)
	default:
		return word
	}
	if word[i] != core[0] {
		as = strings.ToUpper(as[:1]) + as[1:]
	}
	return head + as + tail
}

// nearest picks among the five common words that sound most like a word.
func nearest(rng *rand.Rand, word string) string {
	key := sound(word)
	type near struct {
		word string
		d    int
	}
	best := make([]near, 0, 6)
	for i, c := range common {
		if c == word {
			continue
		}
		best = append(best, near{c, distance(key, commonSounds[i])})
		for j := len(best) - 1; j > 0 && best[j].d < best[j-1].d; j-- {
			best[j], best[j-1] = best[j-1], best[j]
		}
		best = best[:min(len(best), 5)]
	}
	return best[rng.IntN(len(best))].word
}

// sound reduces a word to classes of sounds: letters that are taken for each other become one.
func sound(word string) string { return soundClasses.Replace(word) }

var soundClasses = strings.NewReplacer("ph", "f", "gh", "", "ck", "k", "sh", "s", "ch", "s", "wr", "r", "kn", "n", "wh", "w",
	"b", "p", "d", "t", "g", "k", "c", "k", "q", "k", "v", "f", "z", "s", "j", "s", "x", "s", "m", "n",
	"ee", "i", "ea", "i", "y", "i", "ou", "o", "oo", "u", "'", "")

// distance is the Levenshtein distance of two short words, a wrong first sound counting double.
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diag := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			diag, row[j+1] = row[j+1], min(row[j+1]+1, row[j]+1, diag+cost)
		}
	}
	d := row[len(b)]
	if a == "" || b == "" || a[0] != b[0] {
		d++
	}
	return d
}
