//! English. One line a text: key = text. Words in braces are filled in.

texts! {
    "page.title" = "Your exercises";
    "page.for_whom" = "This plan was made for you after your eyes were checked. Do not give it to others.";
    "page.how_sure" = "Many people get well without exercises. These may help. Do them as long as they do you good.";
    "page.helper" = "An adult stays with the child the whole time.";
    "page.do" = "Do";
    "page.stop" = "Stop if";
    "page.call" = "Call for help now if";
    "page.language" = "Language";
    "page.print" = "Print";
    "page.today" = "Today";
    "page.need" = "You need";
    "page.easier" = "If it is too hard";
    "page.private" = "Your plan stays on this phone. It has no name in it.";

    "rule.before" = "Before you start, say how bad you feel. 0 is not at all. 10 is the worst.";
    "rule.after" = "Say it again when you are done.";
    "rule.limit" = "It is fine to feel a little worse. It must go up by no more than {rise}. It must be gone in less than {minutes} minutes.";
    "rule.no_rise" = "Stop as soon as you feel worse.";
    "rule.early" = "You may feel a bit worse in the first days.";
    "rule.glasses" = "Wear your glasses for near if you have them.";
    "rule.far" = "When you are done, look far away for a while.";
    "rule.place" = "Find a calm place with good light. Stand near a wall. Wear shoes. Take loose rugs away.";
    "rule.when" = "Not right after school or work. Rest first.";

    "stop.double" = "You see two of one thing, and that is new.";
    "stop.head" = "Your head hurts more, or in a new way.";
    "stop.faint" = "You feel faint, or you fall.";
    "stop.chest" = "Your chest hurts, or it is hard to breathe.";
    "stop.numb" = "An arm, a leg or your face feels weak or numb.";
    "stop.neck" = "Your neck hurts, or your arms tingle.";
    "stop.vomit" = "You throw up.";
    "stop.ear" = "You hear less all at once, or your ear runs.";

    "call.emergency" = "Call {number} now.";
    "call.emergency_none" = "Call the emergency number now.";
    "call.practice" = "Call the person who gave you this plan.";

    "danger.wake" = "The person cannot be woken, or is very sleepy.";
    "danger.fit" = "The person has a fit, or passes out.";
    "danger.headache" = "The headache gets worse and does not stop.";
    "danger.vomiting" = "The person throws up again and again.";
    "danger.pupil" = "One black circle in the eye is bigger than the other.";
    "danger.sight" = "The person sees two of one thing, or cannot see well, and that is new.";
    "danger.weak" = "An arm or a leg is weak or numb, or the person cannot walk well.";
    "danger.speech" = "The person cannot speak well, or does not know you.";
    "danger.behaviour" = "The person acts very odd, or gets more and more mixed up.";
    "danger.fluid" = "Clear water runs from the ear or the nose.";
    "danger.baby" = "A baby will not stop crying, or will not eat.";
    "danger.none" = "None of these";
    "danger.ask" = "Is one of these there now?";

    "felt.within" = "Good. Go on as planned.";
    "felt.at_limit" = "You may go on. Next time take the easier step.";
    "felt.rose" = "Stop now and rest. Try the easier step the next day.";
    "felt.lasted" = "It took too long to get better. Rest for today. Try the easier step the next day.";
    "felt.strong_before" = "You feel too bad to start. Rest, and try later.";
    "felt.a_day" = "It did not get better in a day. Do no more exercises. Call the person who gave you this plan.";
    "felt.danger" = "Stop. Do not wait. Call for help now.";

    "rating.before" = "How bad do you feel now?";
    "rating.after" = "How bad do you feel after it?";
    "rating.ends" = "0 is not at all, 10 is the worst.";
    "rating.settled" = "How long did it take to feel as before?";

    "dose.seconds" = "Do it for {count} seconds.";
    "dose.one_minute" = "Do it for one minute.";
    "dose.minutes" = "Do it for {count} minutes.";
    "dose.minute_seconds" = "Do it for {minutes} minute and {count} seconds.";
    "dose.minutes_seconds" = "Do it for {minutes} minutes and {count} seconds.";
    "dose.once" = "Do it one time.";
    "dose.times" = "Do it {count} times.";
    "dose.sets" = "Then do it all again, until you have done it {count} times.";
    "dose.sets_rest" = "Rest for {rest} seconds. Then do it again, until you have done it {count} times.";
    "dose.once_a_day" = "One time a day.";
    "dose.a_day" = "{count} times a day.";
    "dose.every_day" = "Each day of the week.";
    "dose.one_day" = "One day a week.";
    "dose.days" = "{count} days a week.";
    "dose.one_week" = "For one week.";
    "dose.weeks" = "For {count} weeks.";
    "dose.beat" = "Keep to the beat, {count} each minute.";

    "timer.start" = "Start";
    "timer.pause" = "Wait";
    "timer.go_on" = "Go on";
    "timer.next" = "Next";
    "timer.done" = "Done";
    "timer.rest" = "Rest";
    "timer.stop" = "Stop";
    "timer.left" = "{count} seconds left";
    "timer.set" = "{now} of {count}";

    "log.title" = "What you have done";
    "log.none" = "Nothing yet.";
    "log.days" = "Days with exercises: {count}";
    "log.code" = "Show this code at your next visit.";
    "log.numbers" = "Or read these six numbers out on the phone, one at a time.";
    "log.clear" = "Clear all";
    "log.clear_ask" = "This cannot be undone. Clear what you have done?";

    "unreadable.nothing" = "There is no plan in this link. Ask for a new one.";
    "unreadable.foreign" = "This code is not a plan of exercises. Use the code you were given.";
    "unreadable.foreign_log" = "This code is not a list of what was done. Ask for the code at the end of the plan.";
    "unreadable.cut_short" = "A part of this link is lost. Open the whole link, or scan the code once more.";
    "unreadable.damaged" = "A letter in this link is wrong, so it was not opened. Scan the code once more.";
    "unreadable.newer" = "This plan is newer than this page. Load the page again while you are online.";
    "unreadable.markup" = "There is something in this link that is not a plan, so it was not opened. Ask for a new one.";
    "unreadable.too_long" = "This link is far too long for a plan, so it was not opened. Ask for a new one.";

    "advice.rest.title" = "Rest in the first two days";
    "advice.rest.1" = "Take it easy for one or two days. You need not lie in the dark.";
    "advice.rest.2" = "Keep off the phone and other screens as much as you can.";
    "advice.rest.3" = "Then do a little more each day. Sleep when you are tired.";
    "advice.rest.4" = "Most young people feel well again in four weeks. If you do not, ask to be seen again.";

    "advice.reading.title" = "Breaks when you read";
    "advice.reading.1" = "Read for five to fifteen minutes. Then rest your eyes and look far away.";
    "advice.reading.2" = "Read a bit longer when that feels good.";
    "advice.reading.3" = "Use big print, or have the text read to you.";
    "advice.reading.4" = "Ask the school for printed notes, a calm room and more time.";

    "advice.screens.title" = "Breaks from the screen";
    "advice.screens.1" = "Keep screen time short at first.";
    "advice.screens.2" = "Stop now and then and look far away. Blink a few times.";
    "advice.screens.3" = "Turn the light of the screen down. Make the letters big.";

    "advice.school.title" = "Back to school, step by step";
    "advice.school.1" = "Step 1. Do what you do at home on a plain day. Five to fifteen minutes at a time, then more.";
    "advice.school.2" = "Step 2. Do some school work at home.";
    "advice.school.3" = "Step 3. Go to school for a part of the day, with breaks.";
    "advice.school.4" = "Step 4. Go to school for the whole day.";
    "advice.school.rule" = "Take the next step when you feel only a little worse, and for less than an hour. If it is more, go back a step.";

    "advice.sport.title" = "Back to sport, step by step";
    "advice.sport.1" = "Step 1. Do what you do on a plain day. Rest more than you play.";
    "advice.sport.2" = "Step 2. Walk or ride a bike that stands still. First light, then a bit faster.";
    "advice.sport.3" = "Step 3. Train on your own. Do nothing that could hit your head.";
    "advice.sport.gate" = "Wait. A doctor must say yes before you go on.";
    "advice.sport.4" = "Step 4. Train hard with the team, but with no contact.";
    "advice.sport.5" = "Step 5. Train with the team, with contact.";
    "advice.sport.6" = "Step 6. Play games again.";
    "advice.sport.rule" = "Each step takes one day or more. Go to school full time first. If you feel worse, go back a step and ask.";

    "exercise.near_point_practice.title" = "Pen to the nose";
    "exercise.near_point_practice.why" = "Your eyes learn to turn in as a team. In tests with children it did no better than a sham. It may help grown-ups more.";
    "exercise.near_point_practice.need" = "A pen with a small letter on it.";
    "exercise.near_point_practice.step1" = "Sit. Hold the pen as far out as your arm goes. Keep both eyes open.";
    "exercise.near_point_practice.step2" = "Look at the letter. Bring it slowly to your nose.";
    "exercise.near_point_practice.step3" = "When you see two letters, stop. Try to make it one again. Then hold it there and count to fifteen.";
    "exercise.near_point_practice.step4" = "If it stays two, move it back a bit and try again. At the end look out of the window.";
    "exercise.near_point_practice.easier" = "Use a bigger letter. Stop a hand's length from your nose.";
    "exercise.near_point_practice.stop" = "Your head hurts or you see two for more than ten minutes after it.";

    "exercise.bead_string.title" = "Three beads on a string";
    "exercise.bead_string.why" = "You can see if both eyes look at the same bead. No one has tested it on its own.";
    "exercise.bead_string.need" = "A string as long as your arms are wide, and three beads.";
    "exercise.bead_string.step1" = "Tie one end to a door knob. Hold the other end to the tip of your nose.";
    "exercise.bead_string.step2" = "Put the beads on the string, far from each other. The first is as near as you can see just one.";
    "exercise.bead_string.step3" = "Look at the far bead and count to ten. You see two strings that meet at the bead.";
    "exercise.bead_string.step4" = "Now look at the next bead, and then at the near one. Then go back.";
    "exercise.bead_string.easier" = "Use two beads and move them out.";
    "exercise.bead_string.stop" = "You see just one string. Tell us.";

    "exercise.near_far_jumps.title" = "Near and far";
    "exercise.near_far_jumps.why" = "Your eyes learn to change from near to far. It is not known how well it works.";
    "exercise.near_far_jumps.need" = "A pen, and a picture on a wall that is two big steps away.";
    "exercise.near_far_jumps.step1" = "Hold the pen out in front of you. Look at it until it is clear and just one.";
    "exercise.near_far_jumps.step2" = "Look at the picture until it is clear. Then look at the pen again.";
    "exercise.near_far_jumps.step3" = "When that is easy, hold the pen a bit nearer.";
    "exercise.near_far_jumps.easier" = "Keep the pen as far out as your arm goes.";
    "exercise.near_far_jumps.stop" = "Things look blurred for more than ten minutes after it.";

    "exercise.slow_following.title" = "Follow your thumb";
    "exercise.slow_following.why" = "You get used to looking at things that move. It does not train your balance, and it does not help with reading.";
    "exercise.slow_following.need" = "Just your thumb.";
    "exercise.slow_following.step1" = "Sit. Hold your thumb out in front of you. Keep your head still.";
    "exercise.slow_following.step2" = "Move your thumb slowly to one side and back. Count to three for each side. Your eyes go with it.";
    "exercise.slow_following.step3" = "Then move it up and down in the same way.";
    "exercise.slow_following.easier" = "Go slower, and not so far.";
    "exercise.slow_following.stop" = "You see two thumbs. Tell us.";

    "exercise.two_target_jumps.title" = "Jump from note to note";
    "exercise.two_target_jumps.why" = "You get used to quick looks. It does not train your balance, and it does not help with reading.";
    "exercise.two_target_jumps.need" = "Two sticky notes with a letter on each.";
    "exercise.two_target_jumps.step1" = "Put the notes on a wall, as far from each other as a sheet of paper is long. Sit one big step away.";
    "exercise.two_target_jumps.step2" = "Keep your head still. Look at one letter, then at the other, with the beat.";
    "exercise.two_target_jumps.step3" = "Then put one note over the other. Look up and down.";
    "exercise.two_target_jumps.easier" = "Put the notes nearer to each other. Go slower.";
    "exercise.two_target_jumps.stop" = "You keep missing the note on one side. Tell us.";

    "exercise.eyes_then_head.title" = "Eyes first, then the head";
    "exercise.eyes_then_head.why" = "Your eyes and your head learn to work as a team. It is used as a part of plans that help.";
    "exercise.eyes_then_head.need" = "Two cards with a letter on each.";
    "exercise.eyes_then_head.step1" = "Sit. Put one card to the left and one to the right, as far out as you can reach.";
    "exercise.eyes_then_head.step2" = "Look at one card with your eyes. Your head stays still.";
    "exercise.eyes_then_head.step3" = "Now turn your head to it too. Your eyes stay on the letter.";
    "exercise.eyes_then_head.step4" = "Look at the other card with your eyes. Then turn your head to it.";
    "exercise.eyes_then_head.easier" = "Go slower. Wait a bit at each card.";
    "exercise.eyes_then_head.stop" = "Your neck hurts.";

    "exercise.head_turn_seated.title" = "Turn your head, sitting";
    "exercise.head_turn_seated.why" = "You learn to see clearly while your head moves. Tests show that it helps grown-ups who lost a part of their balance. Some show it for teens.";
    "exercise.head_turn_seated.need" = "A letter on the wall, at the height of your eyes.";
    "exercise.head_turn_seated.step1" = "Sit one big step from the wall. Look at the letter.";
    "exercise.head_turn_seated.step2" = "Turn your head a little to the left and to the right. Your eyes stay on the letter.";
    "exercise.head_turn_seated.step3" = "Go as fast as you can still see it clearly. If it blurs, go slower.";
    "exercise.head_turn_seated.step4" = "Rest. Then nod up and down in the same way.";
    "exercise.head_turn_seated.easier" = "Go slower. Turn less. Stop after ten seconds.";
    "exercise.head_turn_seated.stop" = "The letter stays blurred when you go slower, or your neck hurts.";

    "exercise.head_turn_standing.title" = "Turn your head, standing";
    "exercise.head_turn_standing.why" = "The same as sitting, but your legs work too. Do it when sitting has been easy for three days.";
    "exercise.head_turn_standing.need" = "A letter on the wall, and a corner to stand in. Someone stands near you.";
    "exercise.head_turn_standing.step1" = "Stand in the corner with your feet apart. Look at the letter.";
    "exercise.head_turn_standing.step2" = "Turn your head a little to the left and to the right. Your eyes stay on the letter.";
    "exercise.head_turn_standing.step3" = "Rest. Then nod up and down in the same way.";
    "exercise.head_turn_standing.step4" = "When that is easy, put your feet side by side.";
    "exercise.head_turn_standing.easier" = "Do it sitting.";
    "exercise.head_turn_standing.stop" = "You lose your balance.";

    "exercise.whole_body_turn.title" = "Turn with your thumbs";
    "exercise.whole_body_turn.why" = "You get used to a room that moves past you. It is not known how well it works.";
    "exercise.whole_body_turn.need" = "A clear space. Someone stands near you.";
    "exercise.whole_body_turn.step1" = "Stand with your feet apart. Hold your arms out with your thumbs up.";
    "exercise.whole_body_turn.step2" = "Look at your thumbs. Turn your arms, head and body as one to the left.";
    "exercise.whole_body_turn.step3" = "Turn back and on to the right, slowly, with the beat. That is one time.";
    "exercise.whole_body_turn.step4" = "Wait until you feel as before. Then go on.";
    "exercise.whole_body_turn.easier" = "Sit on a chair and turn less.";
    "exercise.whole_body_turn.stop" = "You feel sick and it does not pass.";

    "exercise.stance_steps.title" = "Stand steady";
    "exercise.stance_steps.why" = "Your balance gets better. A test with teens showed fewer slips.";
    "exercise.stance_steps.need" = "A corner, or a worktop to hold. Someone stands near you.";
    "exercise.stance_steps.step1" = "Stand in the corner. Put your feet side by side.";
    "exercise.stance_steps.step2" = "When that is easy, put one foot half in front of the other.";
    "exercise.stance_steps.step3" = "Then put the heel of one foot to the toes of the other.";
    "exercise.stance_steps.step4" = "Then try to stand on one leg. Hold on when you need to.";
    "exercise.stance_steps.easier" = "Feet apart, one hand on the worktop.";
    "exercise.stance_steps.stop" = "You almost fall two times.";

    "exercise.heel_to_toe_walk.title" = "Walk on a line";
    "exercise.heel_to_toe_walk.why" = "You walk more steadily. It is used in most plans, but no one has tested it on its own.";
    "exercise.heel_to_toe_walk.need" = "Tape on the floor along a wall, four big steps long. Someone walks with you.";
    "exercise.heel_to_toe_walk.step1" = "Put your hand on the wall. Stand on the line.";
    "exercise.heel_to_toe_walk.step2" = "Put the heel of one foot to the toes of the other. Walk slowly to the end.";
    "exercise.heel_to_toe_walk.step3" = "Turn round slowly and walk back. That is one time.";
    "exercise.heel_to_toe_walk.easier" = "Leave some space between your feet. Keep your hand on the wall.";
    "exercise.heel_to_toe_walk.stop" = "You step off the line more from day to day. Tell us.";

    "exercise.familiar_movements.title" = "Get used to a move";
    "exercise.familiar_movements.why" = "A move that makes you dizzy does so less when you do it often. In one big test it helped in the end.";
    "exercise.familiar_movements.need" = "A bed or a chair. Use just the moves that you were shown.";
    "exercise.familiar_movements.step1" = "Sit and wait until you feel calm.";
    "exercise.familiar_movements.step2" = "Do the move you were shown, slowly.";
    "exercise.familiar_movements.step3" = "It should make you a bit dizzy, but not more. Wait until that is gone.";
    "exercise.familiar_movements.step4" = "Do it again. When it is easy, do it a bit faster.";
    "exercise.familiar_movements.easier" = "Do one move, very slowly.";
    "exercise.familiar_movements.stop" = "The room spins for more than a minute when you lie down. Tell us.";

    "exercise.busy_scenes.title" = "Busy places, bit by bit";
    "exercise.busy_scenes.why" = "You get used to shops and crowds. It helped some people as a part of a plan.";
    "exercise.busy_scenes.need" = "A seat by a window or in a shop. Someone comes with you.";
    "exercise.busy_scenes.step1" = "Sit down far from where things move. Look at them for a short time.";
    "exercise.busy_scenes.step2" = "Look at a spot that is still. Rest until you feel as before.";
    "exercise.busy_scenes.step3" = "On good days go a bit nearer, or stand.";
    "exercise.busy_scenes.easier" = "Look at a picture that is full of things but does not move.";
    "exercise.busy_scenes.stop" = "You feel odd or see bright lines. Cover one eye and look away.";

    "exercise.steady_walk.title" = "A steady walk";
    "exercise.steady_walk.why" = "It helps you heal. In tests, teens who walked each day got well some days sooner.";
    "exercise.steady_walk.need" = "Good shoes and a flat way. An adult comes along.";
    "exercise.steady_walk.step1" = "Walk so fast that you breathe more, but can still talk.";
    "exercise.steady_walk.step2" = "If you feel worse, slow down. If that does not help, stop for today.";
    "exercise.steady_walk.step3" = "End with a slow walk.";
    "exercise.steady_walk.easier" = "Walk for ten minutes at your own pace.";
    "exercise.steady_walk.stop" = "You feel more than two points worse.";

    "picture.near_point_practice" = "Someone brings a pen slowly to the nose.";
    "picture.bead_string" = "Someone holds a string to the nose. The other end is tied to a door. Three beads are on it.";
    "picture.near_far_jumps" = "Someone looks from a pen to a picture on the wall and back.";
    "picture.slow_following" = "Someone moves a thumb from side to side. The eyes go with it. The head is still.";
    "picture.two_target_jumps" = "Someone sits in front of two notes on a wall. The eyes jump from one to the other.";
    "picture.eyes_then_head" = "First the eyes look at a card. Then the head turns to it.";
    "picture.head_turn_seated" = "Someone sits and looks at a letter on the wall. The head turns from side to side.";
    "picture.head_turn_standing" = "Someone stands in a corner and looks at a letter on the wall. The head turns from side to side.";
    "picture.whole_body_turn" = "Someone holds both arms out with the thumbs up. The whole body turns from side to side.";
    "picture.stance_steps" = "Someone holds on to a worktop. Four pairs of feet show how to stand: side by side, one a bit in front, heel to toes, on one leg.";
    "picture.heel_to_toe_walk" = "Someone walks on a line, heel to toes, with one hand on the wall.";
    "picture.familiar_movements" = "Someone sits on a bed, lies down slowly, and sits up.";
    "picture.busy_scenes" = "Someone sits and looks out at people and a car that go by.";
    "picture.steady_walk" = "A child and an adult walk and talk.";
}
