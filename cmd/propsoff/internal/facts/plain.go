package facts

// Plainly leaves out what to do: somebody else asks for something now, as a drill does, and only what is may be told.
func (f *Facts) Plainly() {
	f.Plain = true
	for i := range f.Refusals() {
		f.Refusing[i].Plain = true
	}
}
