/* The built-in craft, arming by switch, a silent receiver that cuts: written from the description of the bench, apart from its code. */
#define SIL 12
#define CLEAN 60
#define STILL 100
bit thr, arm, cable, pow, armed, ins, off; bit radio = 1;
byte phase, gap, clean, still;   /* phase 0 never 1 lost 2 fresh 3 good */
inline craft(first, moved) {
  if :: still < STILL ->
        if :: moved -> still = 0 :: else -> if :: first -> skip :: else -> still++ fi fi
     :: else -> skip fi;
  if :: radio ->
        gap = 0;
        if :: phase < 2 -> phase = 2; clean = 0 :: else -> skip fi;
        if :: phase == 2 -> clean++; if :: clean > CLEAN -> phase = 3; clean = 0 :: else -> skip fi :: else -> skip fi
     :: else ->
        if :: phase >= 2 -> clean = 0; gap++;
              if :: gap >= SIL -> phase = 1; gap = 0 :: else -> skip fi
           :: else -> skip fi
  fi;
  if :: phase < 2 -> off = 1; armed = 0 :: else -> skip fi;
  if :: radio ->
        if :: !arm -> armed = 0; ins = 0; if :: phase == 3 -> off = 0 :: else -> skip fi
           :: else ->
              if :: !ins -> ins = 1;
                    if :: !armed ->
                          if :: thr || off || phase != 3 || still < STILL || cable -> off = 1
                             :: else -> armed = 1; off = 1 fi
                       :: else -> skip fi
                 :: else -> skip fi
        fi
     :: else -> skip fi
}
inline go(moved) { if :: pow -> craft(0, moved) :: else -> skip fi }
active proctype p() {
  do
  :: d_step { go(0) }
  :: d_step { thr = 1 - thr; go(0) }
  :: d_step { arm = 1 - arm; go(0) }
  :: d_step { radio = 1 - radio; go(0) }
  :: d_step { cable = 1 - cable; go(0) }
  :: d_step { pow -> craft(0, 1) }
  :: d_step { if :: pow -> pow = 0; phase = 0; gap = 0; clean = 0; still = 0; armed = 0; ins = 0; off = 0
                 :: else -> pow = 1; off = 1; craft(1, 0) fi }
  od
}
