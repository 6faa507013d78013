package lint

// InHouse is the checker that c uses under a house.
var InHouse = (*Checker).in
