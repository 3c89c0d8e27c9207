"""What goes on paper, in millimetres: paths, texts and images; it draws nothing itself."""
