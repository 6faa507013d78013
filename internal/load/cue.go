package load

func (b *builder) cue(trust bool) {}
