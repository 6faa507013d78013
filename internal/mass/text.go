package mass

// UnmarshalText reads a weight per area such as "240 g/m2". It implements
// [encoding.TextUnmarshaler].
func (a *Areal) UnmarshalText(text []byte) (err error) {
	*a, _, err = ParseAreal(string(text))
	return err
}

// UnmarshalText reads a weight per length such as "45 g/m". It implements
// [encoding.TextUnmarshaler].
func (k *Linear) UnmarshalText(text []byte) (err error) {
	*k, _, err = ParseLinear(string(text))
	return err
}

// UnmarshalText reads a mass such as "5 kg". It implements
// [encoding.TextUnmarshaler].
func (m *Mass) UnmarshalText(text []byte) (err error) {
	*m, _, err = ParseMass(string(text))
	return err
}
