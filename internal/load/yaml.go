package load

func (b *builder) yaml() {}
