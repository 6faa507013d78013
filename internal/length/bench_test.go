package length

import "testing"

// spellings are the ways that an order form shows for writing a length.
var spellings = []string{
	"72", "10 1/2", "10-1/2 in", `10½"`, "10 ½", `6' 2"`, `6'2"`, "6 ft 2 in", "81in", "1.5 m",
	"1,5 m", "137cm", "5 yd", "4 2/3 yd", "3/8", "1⁄2", `6' 2 1/2"`, "2 yd 6 in", "2 m 35 cm",
}

func BenchmarkParse(b *testing.B) {
	for _, text := range spellings {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, _, err := Parse(text, In); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
