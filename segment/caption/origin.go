package caption

// An origin is where in the source a word stands: reading.src[from:to], to exclusive; from is -1 where it has no place of its own.
type origin struct {
	from, to int
}

// origin finds the place of a word, which is text[from:to] of the cue at hand, in the source.
func (lx *lexer) origin(from, to int) origin { return origin{-1, -1} }
