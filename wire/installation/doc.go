// Package installation solves the conductors of a whole job at once.
package installation
