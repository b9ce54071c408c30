package caption

// warnings collects warnings, one for each kind, with the line of the first and their number.
type warnings []Warning

func (w *warnings) add(line int, text string) {
	for i := range *w {
		if (*w)[i].Text == text {
			(*w)[i].Line = min((*w)[i].Line, line)
			(*w)[i].Count++
			return
		}
	}
	*w = append(*w, Warning{Line: line, Text: text, Count: 1})
}
