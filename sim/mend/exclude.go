package mend

func (f *finder) exclude() {}
