// Package author turns a written exercise session into caption files and the
// truth about it. A script says what an invented therapist says and what the
// people following really do; Render plays it on one exact timeline, lets a
// captioner mishear it in three ways, and writes
//
//	NAME.word.vtt    roll-up captions with a time on every word
//	NAME.cue.srt     ordinary cues
//	NAME.block.txt   a transcript with a time every 20 to 28 s
//	NAME.truth.json  what was really said and done
//
// and, for the same truth, the three files as a poor speech recogniser would
// write them. The same script gives the same bytes.
//
// # Scripts
//
// A script is plain text. It starts with "key: value" lines (title, level,
// equipment, seed, rate in words a second, numerals: the share of numbers in
// ordinary talk that captions write as digits, faults: 1 for the usual number
// of captioner's faults) and goes on with parts. A line that starts with "#"
// is a remark. Every other line is spoken as it stands; [2.5] in it is a pause
// in seconds, [..] a pause that stretches until the part lasts as long as it
// should (several share the time).
//
// A part starts with a line of its own:
//
//	@talk                        neither exercise nor a rest owed
//	@warm-up                     also @cool-down
//	@rest 30 | lasts 34          announced 30 s, really 34 s; the words of the part are spoken during it
//	@rest unstated | lasts 20    nothing announced
//	@set heel raises | side left | dose 10 | pace 3.2
//	@timed plank | dose 30 | lasts 33
//
// Options of @set and @timed: side (left, right, both, alternate; both if
// absent), dose (repetitions or seconds announced, or none), in (work,
// balance, warm-up or cool-down; work if absent). Of @set: pace in seconds a
// repetition, step (how the count goes: 1, -1, 2, 5; read off the numbers if
// absent), drift (the last repetition's pace against the first, in per cent),
// leads (numbers are said before the movement, not after it). Of @timed:
// lasts, in seconds from the end of "go" to the stop.
//
// The first lines of a @set announce it. Then come count lines, which start
// with ":" and hold repetitions in order:
//
//	7            a repetition with its number said on it
//	1..10        ten of them; 10..1 downwards; 2..20/2 every second one said
//	_            a repetition in silence; _*4 four of them
//	!1           a number that starts the count anew on purpose, or turns it: 1..5 !4..1
//	(lift, and)  words before the next repetition, ending on it
//	{chest up}   words after the repetition before, over whatever follows
//	[3]          everybody waits 3 s
//
// In words, /2 or /elephant is said on a beat of one second (seconds of a hold
// counted aloud), and =8 says nothing but marks that the therapist has put the
// count right to 8. Words over silent repetitions take no time; words that
// would push the next number far off its beat are an error.
//
// The first lines of a @timed set announce it and end with "go" or the like.
// Then "> 10 Halfway" is said 10 s after that.
package author
