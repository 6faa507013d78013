package length

// UnmarshalText reads a length with its unit, as the trade's tables have it:
// "5/8 in", "12 mm". It implements [encoding.TextUnmarshaler].
func (l *Length) UnmarshalText(text []byte) (err error) {
	*l, _, err = Parse(string(text), NoUnit)
	return err
}

// UnmarshalText reads a ratio such as "2.25", "0.03" or "2/3". It implements
// [encoding.TextUnmarshaler].
func (r *Ratio) UnmarshalText(text []byte) (err error) {
	*r, err = ParseRatio(string(text))
	return err
}
