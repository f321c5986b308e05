// Package card is one sheet: the switch card.
package card
