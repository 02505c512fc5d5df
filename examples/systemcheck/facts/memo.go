package facts

import (
	"maps"
	"sync"
)

// memo remembers what is slow to find. Several goroutines may ask it; where two ask for
// one thing at once, both find it.
type memo[K comparable, V any] struct {
	lock  sync.Mutex
	known map[K]V
}

func newMemo[K comparable, V any]() *memo[K, V] { return &memo[K, V]{known: map[K]V{}} }

// get returns what is known of a key, or finds it.
func (m *memo[K, V]) get(key K, find func() (V, error)) (V, error) {
	m.lock.Lock()
	v, ok := m.known[key]
	m.lock.Unlock()
	if ok {
		return v, nil
	}
	v, err := find()
	if err != nil {
		return v, err
	}
	m.lock.Lock()
	defer m.lock.Unlock()
	m.known[key] = v
	return v, nil
}

// without is one that has forgotten a key.
func (m *memo[K, V]) without(key K) *memo[K, V] {
	m.lock.Lock()
	defer m.lock.Unlock()
	own := &memo[K, V]{known: maps.Clone(m.known)}
	delete(own.known, key)
	return own
}
