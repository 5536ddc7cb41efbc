// begun
