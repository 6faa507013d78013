// Package slab hands out slices from memory that is taken back all at once and then
// handed out again, so that thousands of orders of a kind leave little to collect.
package slab

// Most is how many elements a Slab keeps at most when it takes its memory back.
const most = 1 << 13

// A Slab hands out slices of one type. The zero value is ready, and is as good as make
// while nothing is taken back. It is not safe for use by several goroutines at once.
type Slab[T any] struct {
	room []T
	used int // of the room
	more int // handed out besides, from rooms that became too small
}

// Make returns n zero elements, which can't be appended to in place.
func (s *Slab[T]) Make(n int) []T { return s.MakeOf(n, n) }

// MakeOf is Make where more is going to be asked for: a new room is made for so many.
func (s *Slab[T]) MakeOf(n, room int) []T {
	if n > len(s.room)-s.used {
		s.more += s.used
		s.room, s.used = make([]T, max(n, room)), 0
	}
	at := s.used
	s.used += n
	return s.room[at:s.used:s.used]
}

// Reset takes back all that was handed out. Nobody may read it any more: it is handed
// out again.
func (s *Slab[T]) Reset() {
	switch all := s.more + s.used; {
	case Spoil != nil:
		Spoil(s.room[:s.used])
		s.room = nil
	case s.more > 0 || all > most:
		s.room = make([]T, min(all, most))
	default:
		clear(s.room[:s.used])
	}
	s.used, s.more = 0, 0
}

// Spoil is for tests: it is given each slice that is taken back, to put into it what
// nobody could take for an order. What was spoilt is not handed out again.
var Spoil func(slice any)
