package fit

import (
	"encoding/binary"
	"math"
	"slices"
	"sync"
)

// memo remembers the latest answers of a function, so that screens and tables of the same
// trials do not work them out again. The answer must depend on its key alone.
type memo[K comparable, V any] struct {
	most int // answers kept

	mutex sync.Mutex
	known map[K]V
	order []K // the one asked for last at the end
}

// of gives the answer for a key, worked out where it is not remembered.
func (m *memo[K, V]) of(key K, work func() V) V {
	if v, ok := m.recall(key); ok {
		return v
	}
	v := work()
	m.keep(key, v)
	return v
}

// recall gives the remembered answer for a key.
func (m *memo[K, V]) recall(key K) (V, bool) {
	m.mutex.Lock()
	defer m.mutex.Unlock()
	v, ok := m.known[key]
	if ok {
		at := slices.Index(m.order, key)
		m.order = append(slices.Delete(m.order, at, at+1), key)
	}
	return v, ok
}

// keep remembers an answer, and forgets the one not asked for longest.
func (m *memo[K, V]) keep(key K, v V) {
	m.mutex.Lock()
	defer m.mutex.Unlock()
	if _, ok := m.known[key]; ok {
		return
	}
	if m.known == nil {
		m.known = map[K]V{}
	}
	if len(m.order) == m.most {
		delete(m.known, m.order[0])
		m.order = slices.Delete(m.order, 0, 1)
	}
	m.known[key] = v
	m.order = append(m.order, key)
}

// key makes a string of the bits of some numbers.
func key(numbers ...float64) string {
	var bits []byte
	for _, x := range numbers {
		bits = binary.LittleEndian.AppendUint64(bits, math.Float64bits(x))
	}
	return string(bits)
}
