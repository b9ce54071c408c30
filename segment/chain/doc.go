// Package chain is the arithmetic of the models, without a word of English: the beat of a count over bins of time, and the choice
// among candidates that overlap. Times are seconds as float64; scores and evidence are natural logarithms.
package chain
