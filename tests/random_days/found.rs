//! Bugs that random days found, each as the shortest day that shows it.
