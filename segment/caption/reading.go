package caption

// A reading is a file on its way to a Track: cues with the pieces of text in them, before words are told apart.
type reading struct {
	src       string // the whole file as UTF-8
	format    string
	language  string
	title     string
	tagged    bool // words have times of their own inside the cues
	lone      bool // where words have times inside the cues, a word alone in its cue has the cue's
	blocks    bool // a block ends where the next begins
	cues      []rawCue
	rows      []row   // lines of the cues, for the formats with cue lines
	copies    bool    // keep in shows which lines show which words
	shows     []int   // parallel to rows: the row whose words each of them shows, itself for most
	grown     bool    // lines grow word by word
	pieces    []piece // text of the cues
	warn      warnings
	placing   placing // room for placing the words of one cue after the other
	maxCues   int
	keepClock bool
	end       Time // of the recording, where the file gives it; else 0
}

// A rawCue is a cue as it stands in the file.
type rawCue struct {
	start, end  Time
	hasEnd      bool
	loose       bool // the file gives no time for it at all
	floored     bool // its time was cut to whole seconds
	line        int  // of its time
	rows        [2]int
	lastBlank   bool // below its lines stands one with a blank alone: nothing new is shown there
	carried     int  // how many of its lines were shown by the cue before, if lines roll up
	first, last int  // its pieces are reading.pieces[first:last]
}

// A piece is a run of text inside one cue, with what the file says about it.
type piece struct {
	text    string
	pos     int // offset of text in reading.src, -1 where it is not a part of it
	line    int
	at      Time // of its first word, if timed
	until   Time // end of its first word, if timed and known; else 0
	timed   bool
	loose   bool // it is a word that was left without a time among words that have one
	newline bool // it begins a line of the cue
	speaker string
	doubt   float64
}
